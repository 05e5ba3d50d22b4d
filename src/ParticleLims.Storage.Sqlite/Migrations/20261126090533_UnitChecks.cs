using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ParticleLims.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class UnitChecks : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<long>(
                name: "balance_minimum",
                table: "runs",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "balance_then",
                table: "runs",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "balance_unchecked",
                table: "runs",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<string>(
                name: "sieving_unit_then",
                table: "runs",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "small_residue",
                table: "method_versions",
                type: "TEXT",
                maxLength: 60,
                nullable: false,
                defaultValue: "Stated");

            migrationBuilder.AddColumn<string>(
                name: "unchecked_balance",
                table: "method_versions",
                type: "TEXT",
                maxLength: 60,
                nullable: false,
                defaultValue: "Refused");

            migrationBuilder.CreateTable(
                name: "tolerance_editions",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    edition = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    source = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    lines = table.Column<string>(type: "TEXT", maxLength: 8000, nullable: false),
                    intermediate_percent = table.Column<long>(type: "INTEGER", nullable: false),
                    added_at = table.Column<long>(type: "INTEGER", nullable: false),
                    added_by_name = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_tolerance_editions", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "unit_check_plans",
                columns: table => new
                {
                    unit_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    kind = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    every_days = table.Column<int>(type: "INTEGER", nullable: true),
                    every_hours = table.Column<int>(type: "INTEGER", nullable: true),
                    tolerance_percent = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_unit_check_plans", x => new { x.unit_id, x.kind });
                    table.ForeignKey(
                        name: "fk_unit_check_plans_sieving_units_unit_id",
                        column: x => x.unit_id,
                        principalTable: "sieving_units",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "unit_checks",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    unit_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    kind = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    day = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    person_name = table.Column<string>(type: "TEXT", nullable: false),
                    indicated = table.Column<long>(type: "INTEGER", nullable: true),
                    measured = table.Column<long>(type: "INTEGER", nullable: true),
                    tolerance_percent = table.Column<long>(type: "INTEGER", nullable: true),
                    instrument = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    words = table.Column<string>(type: "TEXT", maxLength: 1000, nullable: false),
                    passed = table.Column<bool>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_unit_checks", x => x.id);
                    table.ForeignKey(
                        name: "fk_unit_checks_sieving_units_unit_id",
                        column: x => x.unit_id,
                        principalTable: "sieving_units",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_tolerance_editions_edition_added_at",
                table: "tolerance_editions",
                columns: new[] { "edition", "added_at" });

            migrationBuilder.CreateIndex(
                name: "ix_unit_checks_unit_id_kind_at",
                table: "unit_checks",
                columns: new[] { "unit_id", "kind", "at" });

            foreach (var (table, key) in ParticleLims.Laboratory.Storage.AppendOnlyTables.Seventh)
            {
                AppendOnlyTriggers.Add(migrationBuilder, table, key);
            }
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "tolerance_editions");

            migrationBuilder.DropTable(
                name: "unit_check_plans");

            migrationBuilder.DropTable(
                name: "unit_checks");

            migrationBuilder.DropColumn(
                name: "balance_minimum",
                table: "runs");

            migrationBuilder.DropColumn(
                name: "balance_then",
                table: "runs");

            migrationBuilder.DropColumn(
                name: "balance_unchecked",
                table: "runs");

            migrationBuilder.DropColumn(
                name: "sieving_unit_then",
                table: "runs");

            migrationBuilder.DropColumn(
                name: "small_residue",
                table: "method_versions");

            migrationBuilder.DropColumn(
                name: "unchecked_balance",
                table: "method_versions");
        }
    }
}
