using System;
using Microsoft.EntityFrameworkCore.Migrations;
using ParticleLims.Laboratory.Storage;

#nullable disable

namespace ParticleLims.Storage.Postgres.Migrations
{
    /// <inheritdoc />
    public partial class BenchSteps : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<int>(
                name: "round",
                table: "weighings",
                type: "integer",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<string>(
                name: "pressure_course",
                table: "sieving_intervals",
                type: "character varying(20000)",
                maxLength: 20000,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "pressure_source",
                table: "sieving_intervals",
                type: "character varying(60)",
                maxLength: 60,
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "round",
                table: "sieving_intervals",
                type: "integer",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<Guid>(
                name: "sieving_unit_id",
                table: "runs",
                type: "uuid",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "frame_millimetres",
                table: "run_sieves",
                type: "integer",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<bool>(
                name: "collector_weighed",
                table: "method_versions",
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<int>(
                name: "conditioning_minutes",
                table: "method_versions",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "conditions_read",
                table: "method_versions",
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<int>(
                name: "drying_minutes",
                table: "method_versions",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "drying_temperature",
                table: "method_versions",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "end_point_interval_seconds",
                table: "method_versions",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "end_point_most_change",
                table: "method_versions",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "end_point_most_change_of_portion_percent",
                table: "method_versions",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "end_point_most_change_percent",
                table: "method_versions",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "end_point_most_intervals",
                table: "method_versions",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "end_point_small_residue_most_change_percent",
                table: "method_versions",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "end_point_small_residue_percent",
                table: "method_versions",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "flow_aid",
                table: "method_versions",
                type: "character varying(100)",
                maxLength: 100,
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "flow_aid_percent",
                table: "method_versions",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "humidity_highest_percent",
                table: "method_versions",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "humidity_lowest_percent",
                table: "method_versions",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "sieves_scanned",
                table: "method_versions",
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<long>(
                name: "temperature_highest",
                table: "method_versions",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "temperature_lowest",
                table: "method_versions",
                type: "bigint",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "preparations",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    run_id = table.Column<Guid>(type: "uuid", nullable: false),
                    kind = table.Column<string>(type: "character varying(60)", maxLength: 60, nullable: false),
                    started_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    ended_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    temperature = table.Column<long>(type: "bigint", nullable: true),
                    humidity_percent = table.Column<long>(type: "bigint", nullable: true),
                    note = table.Column<string>(type: "character varying(100)", maxLength: 100, nullable: true),
                    person_id = table.Column<Guid>(type: "uuid", nullable: false),
                    person_name = table.Column<string>(type: "text", nullable: false),
                    terminal = table.Column<string>(type: "text", nullable: false),
                    ended_by_name = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_preparations", x => x.id);
                    table.ForeignKey(
                        name: "fk_preparations_runs_run_id",
                        column: x => x.run_id,
                        principalTable: "runs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "sieve_scans",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    run_id = table.Column<Guid>(type: "uuid", nullable: false),
                    position = table.Column<int>(type: "integer", nullable: false),
                    place = table.Column<string>(type: "character varying(60)", maxLength: 60, nullable: false),
                    at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    person_id = table.Column<Guid>(type: "uuid", nullable: false),
                    person_name = table.Column<string>(type: "text", nullable: false),
                    terminal = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_sieve_scans", x => x.id);
                    table.ForeignKey(
                        name: "fk_sieve_scans_runs_run_id",
                        column: x => x.run_id,
                        principalTable: "runs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "sieving_units",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    serial = table.Column<string>(type: "character varying(60)", maxLength: 60, nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    place = table.Column<string>(type: "text", nullable: false),
                    is_air_jet = table.Column<bool>(type: "boolean", nullable: false),
                    gauge_host = table.Column<string>(type: "character varying(255)", maxLength: 255, nullable: true),
                    gauge_port = table.Column<int>(type: "integer", nullable: true),
                    gauge_unit = table.Column<string>(type: "character varying(60)", maxLength: 60, nullable: false),
                    state = table.Column<string>(type: "character varying(60)", maxLength: 60, nullable: false),
                    state_reason = table.Column<string>(type: "text", nullable: true),
                    inspection_due_on = table.Column<DateOnly>(type: "date", nullable: true),
                    version = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_sieving_units", x => x.id);
                });

            migrationBuilder.CreateIndex(
                name: "ix_runs_sieving_unit_id",
                table: "runs",
                column: "sieving_unit_id");

            migrationBuilder.CreateIndex(
                name: "ix_preparations_run_id",
                table: "preparations",
                column: "run_id");

            migrationBuilder.CreateIndex(
                name: "ix_sieve_scans_run_id",
                table: "sieve_scans",
                column: "run_id");

            migrationBuilder.CreateIndex(
                name: "ix_sieving_units_serial",
                table: "sieving_units",
                column: "serial",
                unique: true);

            // The frame of the sieves in older runs; their rows are written once but for this.
            migrationBuilder.Sql("ALTER TABLE run_sieves DISABLE TRIGGER run_sieves_no_change;");
            migrationBuilder.Sql("UPDATE run_sieves SET frame_millimetres = (SELECT frame_millimetres FROM test_sieves WHERE test_sieves.id = run_sieves.sieve_id);");
            migrationBuilder.Sql("ALTER TABLE run_sieves ENABLE TRIGGER run_sieves_no_change;");
            foreach (var (table, _) in AppendOnlyTables.Third)
            {
                AppendOnlyTriggers.Add(migrationBuilder, table);
            }
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "preparations");

            migrationBuilder.DropTable(
                name: "sieve_scans");

            migrationBuilder.DropTable(
                name: "sieving_units");

            migrationBuilder.DropIndex(
                name: "ix_runs_sieving_unit_id",
                table: "runs");

            migrationBuilder.DropColumn(
                name: "round",
                table: "weighings");

            migrationBuilder.DropColumn(
                name: "pressure_course",
                table: "sieving_intervals");

            migrationBuilder.DropColumn(
                name: "pressure_source",
                table: "sieving_intervals");

            migrationBuilder.DropColumn(
                name: "round",
                table: "sieving_intervals");

            migrationBuilder.DropColumn(
                name: "sieving_unit_id",
                table: "runs");

            migrationBuilder.DropColumn(
                name: "frame_millimetres",
                table: "run_sieves");

            migrationBuilder.DropColumn(
                name: "collector_weighed",
                table: "method_versions");

            migrationBuilder.DropColumn(
                name: "conditioning_minutes",
                table: "method_versions");

            migrationBuilder.DropColumn(
                name: "conditions_read",
                table: "method_versions");

            migrationBuilder.DropColumn(
                name: "drying_minutes",
                table: "method_versions");

            migrationBuilder.DropColumn(
                name: "drying_temperature",
                table: "method_versions");

            migrationBuilder.DropColumn(
                name: "end_point_interval_seconds",
                table: "method_versions");

            migrationBuilder.DropColumn(
                name: "end_point_most_change",
                table: "method_versions");

            migrationBuilder.DropColumn(
                name: "end_point_most_change_of_portion_percent",
                table: "method_versions");

            migrationBuilder.DropColumn(
                name: "end_point_most_change_percent",
                table: "method_versions");

            migrationBuilder.DropColumn(
                name: "end_point_most_intervals",
                table: "method_versions");

            migrationBuilder.DropColumn(
                name: "end_point_small_residue_most_change_percent",
                table: "method_versions");

            migrationBuilder.DropColumn(
                name: "end_point_small_residue_percent",
                table: "method_versions");

            migrationBuilder.DropColumn(
                name: "flow_aid",
                table: "method_versions");

            migrationBuilder.DropColumn(
                name: "flow_aid_percent",
                table: "method_versions");

            migrationBuilder.DropColumn(
                name: "humidity_highest_percent",
                table: "method_versions");

            migrationBuilder.DropColumn(
                name: "humidity_lowest_percent",
                table: "method_versions");

            migrationBuilder.DropColumn(
                name: "sieves_scanned",
                table: "method_versions");

            migrationBuilder.DropColumn(
                name: "temperature_highest",
                table: "method_versions");

            migrationBuilder.DropColumn(
                name: "temperature_lowest",
                table: "method_versions");
        }
    }
}
