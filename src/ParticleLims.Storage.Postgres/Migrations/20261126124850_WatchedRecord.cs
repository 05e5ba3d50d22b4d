using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ParticleLims.Storage.Postgres.Migrations
{
    /// <inheritdoc />
    public partial class WatchedRecord : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<int>(
                name: "access_review_every_days",
                table: "laboratory_settings",
                type: "integer",
                nullable: false,
                defaultValue: 182);

            migrationBuilder.CreateTable(
                name: "access_reviews",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    person_id = table.Column<Guid>(type: "uuid", nullable: false),
                    person_name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    signature_id = table.Column<Guid>(type: "uuid", nullable: false),
                    accounts = table.Column<int>(type: "integer", nullable: false),
                    active = table.Column<int>(type: "integer", nullable: false),
                    finding = table.Column<string>(type: "character varying(2000)", maxLength: 2000, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_access_reviews", x => x.id);
                    table.ForeignKey(
                        name: "fk_access_reviews_signatures_signature_id",
                        column: x => x.signature_id,
                        principalTable: "signatures",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "alert_rules",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    contact = table.Column<string>(type: "character varying(1000)", maxLength: 1000, nullable: true),
                    post = table.Column<bool>(type: "boolean", nullable: false),
                    tries_of_one = table.Column<int>(type: "integer", nullable: false),
                    tries_of_all = table.Column<int>(type: "integer", nullable: false),
                    within_minutes = table.Column<int>(type: "integer", nullable: false),
                    clock_step_seconds = table.Column<int>(type: "integer", nullable: false),
                    version = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_alert_rules", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "alerts",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    kind = table.Column<string>(type: "character varying(60)", maxLength: 60, nullable: false),
                    at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    words = table.Column<string>(type: "character varying(1000)", maxLength: 1000, nullable: false),
                    subject_id = table.Column<Guid>(type: "uuid", nullable: false),
                    closed_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    closed_by_id = table.Column<Guid>(type: "uuid", nullable: true),
                    closed_by_name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: true),
                    finding = table.Column<string>(type: "character varying(1000)", maxLength: 1000, nullable: true),
                    version = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_alerts", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "head_leavings",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    sequence = table.Column<long>(type: "bigint", nullable: false),
                    hash = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: false),
                    event_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    left_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    text = table.Column<string>(type: "character varying(2000)", maxLength: 2000, nullable: false),
                    places = table.Column<string>(type: "character varying(2500)", maxLength: 2500, nullable: false),
                    fault = table.Column<string>(type: "character varying(500)", maxLength: 500, nullable: true),
                    outside = table.Column<bool>(type: "boolean", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_head_leavings", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "head_plans",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    folder = table.Column<string>(type: "character varying(1000)", maxLength: 1000, nullable: true),
                    mail_to = table.Column<string>(type: "character varying(1000)", maxLength: 1000, nullable: true),
                    post = table.Column<bool>(type: "boolean", nullable: false),
                    every_hours = table.Column<int>(type: "integer", nullable: false),
                    version = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_head_plans", x => x.id);
                });

            migrationBuilder.CreateIndex(
                name: "ix_access_reviews_at",
                table: "access_reviews",
                column: "at");

            migrationBuilder.CreateIndex(
                name: "ix_access_reviews_signature_id",
                table: "access_reviews",
                column: "signature_id");

            migrationBuilder.CreateIndex(
                name: "ix_alerts_at",
                table: "alerts",
                column: "at");

            migrationBuilder.CreateIndex(
                name: "ix_alerts_closed_at",
                table: "alerts",
                column: "closed_at");

            migrationBuilder.CreateIndex(
                name: "ix_head_leavings_left_at",
                table: "head_leavings",
                column: "left_at");

            foreach (var (table, _) in ParticleLims.Laboratory.Storage.AppendOnlyTables.Tenth)
            {
                AppendOnlyTriggers.Add(migrationBuilder, table);
            }
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "access_reviews");

            migrationBuilder.DropTable(
                name: "alert_rules");

            migrationBuilder.DropTable(
                name: "alerts");

            migrationBuilder.DropTable(
                name: "head_leavings");

            migrationBuilder.DropTable(
                name: "head_plans");

            migrationBuilder.DropColumn(
                name: "access_review_every_days",
                table: "laboratory_settings");
        }
    }
}
