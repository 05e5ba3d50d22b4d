using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ParticleLims.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class SigningGround : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "identity_checks",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    person_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    by_name = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    how = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    seen_on = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    written_at = table.Column<long>(type: "INTEGER", nullable: false),
                    written_by_name = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_identity_checks", x => x.id);
                    table.ForeignKey(
                        name: "fk_identity_checks_people_person_id",
                        column: x => x.person_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "signing_acceptances",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    person_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    policy_number = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    text_hash = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    terminal = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_signing_acceptances", x => x.id);
                    table.ForeignKey(
                        name: "fk_signing_acceptances_people_person_id",
                        column: x => x.person_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "signing_policy_additions",
                columns: table => new
                {
                    number = table.Column<int>(type: "INTEGER", nullable: false),
                    words = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    person_name = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_signing_policy_additions", x => x.number);
                });

            migrationBuilder.CreateIndex(
                name: "ix_identity_checks_person_id",
                table: "identity_checks",
                column: "person_id");

            migrationBuilder.CreateIndex(
                name: "ix_signing_acceptances_person_id_policy_number",
                table: "signing_acceptances",
                columns: new[] { "person_id", "policy_number" });

            foreach (var (table, key) in ParticleLims.Laboratory.Storage.AppendOnlyTables.Eleventh)
            {
                AppendOnlyTriggers.Add(migrationBuilder, table, key);
            }
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "identity_checks");

            migrationBuilder.DropTable(
                name: "signing_acceptances");

            migrationBuilder.DropTable(
                name: "signing_policy_additions");
        }
    }
}
