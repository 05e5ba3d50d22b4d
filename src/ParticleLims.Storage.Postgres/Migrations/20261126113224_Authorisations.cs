using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ParticleLims.Storage.Postgres.Migrations
{
    /// <inheritdoc />
    public partial class Authorisations : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<bool>(
                name: "authorisation_needed",
                table: "method_versions",
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.CreateTable(
                name: "authorisation_overrides",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    run_id = table.Column<Guid>(type: "uuid", nullable: false),
                    run_number = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: false),
                    person_id = table.Column<Guid>(type: "uuid", nullable: false),
                    person_name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    missing = table.Column<string>(type: "text", nullable: false),
                    reason = table.Column<string>(type: "text", nullable: false),
                    given_by_name = table.Column<string>(type: "text", nullable: false),
                    at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    signature_id = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_authorisation_overrides", x => x.id);
                    table.ForeignKey(
                        name: "fk_authorisation_overrides_runs_run_id",
                        column: x => x.run_id,
                        principalTable: "runs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_authorisation_overrides_signatures_signature_id",
                        column: x => x.signature_id,
                        principalTable: "signatures",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "method_authorisations",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    person_id = table.Column<Guid>(type: "uuid", nullable: false),
                    person_name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    method_id = table.Column<Guid>(type: "uuid", nullable: false),
                    method_code = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    given_by_name = table.Column<string>(type: "text", nullable: false),
                    given_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    evidence = table.Column<string>(type: "character varying(500)", maxLength: 500, nullable: false),
                    valid_until = table.Column<DateOnly>(type: "date", nullable: false),
                    withdrawn_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    withdrawn_by_name = table.Column<string>(type: "text", nullable: true),
                    withdrawn_reason = table.Column<string>(type: "text", nullable: true),
                    version = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_method_authorisations", x => x.id);
                    table.ForeignKey(
                        name: "fk_method_authorisations_methods_method_id",
                        column: x => x.method_id,
                        principalTable: "methods",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_method_authorisations_people_person_id",
                        column: x => x.person_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "run_operators",
                columns: table => new
                {
                    run_id = table.Column<Guid>(type: "uuid", nullable: false),
                    person_id = table.Column<Guid>(type: "uuid", nullable: false),
                    person_name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    since = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    authorisation_then = table.Column<string>(type: "text", nullable: false),
                    by_signature = table.Column<bool>(type: "boolean", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_run_operators", x => new { x.run_id, x.person_id });
                    table.ForeignKey(
                        name: "fk_run_operators_runs_run_id",
                        column: x => x.run_id,
                        principalTable: "runs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_authorisation_overrides_run_id",
                table: "authorisation_overrides",
                column: "run_id");

            migrationBuilder.CreateIndex(
                name: "ix_authorisation_overrides_signature_id",
                table: "authorisation_overrides",
                column: "signature_id");

            migrationBuilder.CreateIndex(
                name: "ix_method_authorisations_method_id",
                table: "method_authorisations",
                column: "method_id");

            migrationBuilder.CreateIndex(
                name: "ix_method_authorisations_person_id_method_id_given_at",
                table: "method_authorisations",
                columns: new[] { "person_id", "method_id", "given_at" });

            foreach (var (table, _) in ParticleLims.Laboratory.Storage.AppendOnlyTables.Ninth)
            {
                AppendOnlyTriggers.Add(migrationBuilder, table);
            }
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "authorisation_overrides");

            migrationBuilder.DropTable(
                name: "method_authorisations");

            migrationBuilder.DropTable(
                name: "run_operators");

            migrationBuilder.DropColumn(
                name: "authorisation_needed",
                table: "method_versions");
        }
    }
}
