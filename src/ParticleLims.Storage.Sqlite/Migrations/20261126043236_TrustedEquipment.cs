using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ParticleLims.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class TrustedEquipment : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<int>(
                name: "inspect_every_days",
                table: "test_sieves",
                type: "INTEGER",
                nullable: false,
                defaultValue: 365);

            migrationBuilder.AddColumn<int>(
                name: "inspect_every_runs",
                table: "test_sieves",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "inspected_at",
                table: "test_sieves",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "tare_from",
                table: "test_sieves",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "tare_scatter",
                table: "test_sieves",
                type: "INTEGER",
                nullable: false,
                defaultValue: 3000L);

            migrationBuilder.AddColumn<string>(
                name: "tare_signal",
                table: "test_sieves",
                type: "TEXT",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "tare_signal_at",
                table: "test_sieves",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "inspected_at",
                table: "sieving_units",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "effective_aperture",
                table: "run_sieves",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "effective_uncertainty",
                table: "run_sieves",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "effective_apertures",
                table: "method_versions",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<long>(
                name: "inspected_at",
                table: "balances",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "level_seen",
                table: "balance_checks",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "warmed_up",
                table: "balance_checks",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "way_in",
                table: "balance_checks",
                type: "TEXT",
                maxLength: 60,
                nullable: false,
                defaultValue: "Network");

            migrationBuilder.AddColumn<string>(
                name: "weight_serial",
                table: "balance_checks",
                type: "TEXT",
                maxLength: 60,
                nullable: true);

            migrationBuilder.CreateTable(
                name: "aperture_measurements",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    sieve_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    person_name = table.Column<string>(type: "TEXT", nullable: false),
                    kind = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    document = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    measured_on = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    mean = table.Column<long>(type: "INTEGER", nullable: false),
                    largest = table.Column<long>(type: "INTEGER", nullable: false),
                    deviation = table.Column<long>(type: "INTEGER", nullable: true),
                    expanded_uncertainty = table.Column<long>(type: "INTEGER", nullable: true),
                    count = table.Column<int>(type: "INTEGER", nullable: false),
                    count_beyond = table.Column<int>(type: "INTEGER", nullable: true),
                    edition = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    conforms = table.Column<bool>(type: "INTEGER", nullable: true),
                    points = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_aperture_measurements", x => x.id);
                    table.ForeignKey(
                        name: "fk_aperture_measurements_test_sieves_sieve_id",
                        column: x => x.sieve_id,
                        principalTable: "test_sieves",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "check_weights",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    serial = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    nominal = table.Column<long>(type: "INTEGER", nullable: false),
                    @class = table.Column<string>(name: "class", type: "TEXT", maxLength: 60, nullable: false),
                    place = table.Column<string>(type: "TEXT", nullable: false),
                    conventional_mass = table.Column<long>(type: "INTEGER", nullable: false),
                    certificate = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    state = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    state_reason = table.Column<string>(type: "TEXT", nullable: true),
                    inspection_due_on = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    inspected_at = table.Column<long>(type: "INTEGER", nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_check_weights", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "equipment_documents",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    equipment_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    kind = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    title = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    media_type = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    file_name = table.Column<string>(type: "TEXT", maxLength: 80, nullable: false),
                    length = table.Column<int>(type: "INTEGER", nullable: false),
                    sha256 = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    added_at = table.Column<long>(type: "INTEGER", nullable: false),
                    added_by_name = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_equipment_documents", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "equipment_failures",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    number = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    equipment_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    equipment_label = table.Column<string>(type: "TEXT", nullable: false),
                    what = table.Column<string>(type: "TEXT", maxLength: 1000, nullable: false),
                    good_until = table.Column<long>(type: "INTEGER", nullable: false),
                    opened_at = table.Column<long>(type: "INTEGER", nullable: false),
                    opened_by_name = table.Column<string>(type: "TEXT", nullable: false),
                    closed_at = table.Column<long>(type: "INTEGER", nullable: true),
                    closed_by_name = table.Column<string>(type: "TEXT", nullable: true),
                    conclusion = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_equipment_failures", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "fitness_overrides",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    run_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    run_number = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    equipment_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    equipment_label = table.Column<string>(type: "TEXT", nullable: false),
                    unfit = table.Column<string>(type: "TEXT", nullable: false),
                    reason = table.Column<string>(type: "TEXT", nullable: false),
                    person_name = table.Column<string>(type: "TEXT", nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    signature_id = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_fitness_overrides", x => x.id);
                    table.ForeignKey(
                        name: "fk_fitness_overrides_runs_run_id",
                        column: x => x.run_id,
                        principalTable: "runs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_fitness_overrides_signatures_signature_id",
                        column: x => x.signature_id,
                        principalTable: "signatures",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "reference_materials",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    name = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    batch = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    certificate = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    good_until = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    points = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    added_at = table.Column<long>(type: "INTEGER", nullable: false),
                    added_by_name = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_reference_materials", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "repeatability_tests",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    balance_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    person_name = table.Column<string>(type: "TEXT", nullable: false),
                    readings = table.Column<string>(type: "TEXT", maxLength: 1000, nullable: false),
                    deviation = table.Column<long>(type: "INTEGER", nullable: false),
                    minimum_weight = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_repeatability_tests", x => x.id);
                    table.ForeignKey(
                        name: "fk_repeatability_tests_balances_balance_id",
                        column: x => x.balance_id,
                        principalTable: "balances",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "sieve_cleanings",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    sieve_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    person_name = table.Column<string>(type: "TEXT", nullable: false),
                    way = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    words = table.Column<string>(type: "TEXT", maxLength: 1000, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_sieve_cleanings", x => x.id);
                    table.ForeignKey(
                        name: "fk_sieve_cleanings_test_sieves_sieve_id",
                        column: x => x.sieve_id,
                        principalTable: "test_sieves",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "check_weight_calibrations",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    weight_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    certificate = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    calibrated_on = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    conventional_mass = table.Column<long>(type: "INTEGER", nullable: false),
                    expanded_uncertainty = table.Column<long>(type: "INTEGER", nullable: false),
                    compared_with = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    due_on = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    person_name = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_check_weight_calibrations", x => x.id);
                    table.ForeignKey(
                        name: "fk_check_weight_calibrations_check_weights_weight_id",
                        column: x => x.weight_id,
                        principalTable: "check_weights",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "equipment_files",
                columns: table => new
                {
                    document_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    bytes = table.Column<byte[]>(type: "BLOB", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_equipment_files", x => x.document_id);
                    table.ForeignKey(
                        name: "fk_equipment_files_equipment_documents_document_id",
                        column: x => x.document_id,
                        principalTable: "equipment_documents",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "sieve_inspections",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    sieve_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    person_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    person_name = table.Column<string>(type: "TEXT", nullable: false),
                    faults = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    words = table.Column<string>(type: "TEXT", maxLength: 1000, nullable: false),
                    signal_then = table.Column<string>(type: "TEXT", maxLength: 400, nullable: true),
                    tare_begun_anew = table.Column<bool>(type: "INTEGER", nullable: false),
                    photograph_id = table.Column<Guid>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_sieve_inspections", x => x.id);
                    table.ForeignKey(
                        name: "fk_sieve_inspections_equipment_documents_photograph_id",
                        column: x => x.photograph_id,
                        principalTable: "equipment_documents",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_sieve_inspections_test_sieves_sieve_id",
                        column: x => x.sieve_id,
                        principalTable: "test_sieves",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "touched_lots",
                columns: table => new
                {
                    failure_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    lot_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    lot_number = table.Column<string>(type: "TEXT", nullable: false),
                    decision = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    words = table.Column<string>(type: "TEXT", maxLength: 1000, nullable: true),
                    decided_by_name = table.Column<string>(type: "TEXT", nullable: true),
                    decided_at = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_touched_lots", x => new { x.failure_id, x.lot_id });
                    table.ForeignKey(
                        name: "fk_touched_lots_equipment_failures_failure_id",
                        column: x => x.failure_id,
                        principalTable: "equipment_failures",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_touched_lots_lots_lot_id",
                        column: x => x.lot_id,
                        principalTable: "lots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "touched_runs",
                columns: table => new
                {
                    failure_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    run_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    run_number = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    sample_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    lot_id = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_touched_runs", x => new { x.failure_id, x.run_id });
                    table.ForeignKey(
                        name: "fk_touched_runs_equipment_failures_failure_id",
                        column: x => x.failure_id,
                        principalTable: "equipment_failures",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_touched_runs_runs_run_id",
                        column: x => x.run_id,
                        principalTable: "runs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "reference_checks",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    sieve_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    material_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    material_label = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    person_name = table.Column<string>(type: "TEXT", nullable: false),
                    sievings = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    passing_percent = table.Column<long>(type: "INTEGER", nullable: false),
                    passing_uncertainty_percent = table.Column<long>(type: "INTEGER", nullable: false),
                    effective = table.Column<long>(type: "INTEGER", nullable: false),
                    uncertainty = table.Column<long>(type: "INTEGER", nullable: false),
                    passed = table.Column<bool>(type: "INTEGER", nullable: false),
                    words = table.Column<string>(type: "TEXT", maxLength: 600, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_reference_checks", x => x.id);
                    table.ForeignKey(
                        name: "fk_reference_checks_reference_materials_material_id",
                        column: x => x.material_id,
                        principalTable: "reference_materials",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_reference_checks_test_sieves_sieve_id",
                        column: x => x.sieve_id,
                        principalTable: "test_sieves",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_aperture_measurements_sieve_id_at",
                table: "aperture_measurements",
                columns: new[] { "sieve_id", "at" });

            migrationBuilder.CreateIndex(
                name: "ix_check_weight_calibrations_weight_id_at",
                table: "check_weight_calibrations",
                columns: new[] { "weight_id", "at" });

            migrationBuilder.CreateIndex(
                name: "ix_check_weights_serial",
                table: "check_weights",
                column: "serial",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_equipment_documents_equipment_id_added_at",
                table: "equipment_documents",
                columns: new[] { "equipment_id", "added_at" });

            migrationBuilder.CreateIndex(
                name: "ix_equipment_failures_equipment_id",
                table: "equipment_failures",
                column: "equipment_id");

            migrationBuilder.CreateIndex(
                name: "ix_equipment_failures_number",
                table: "equipment_failures",
                column: "number",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_fitness_overrides_equipment_id",
                table: "fitness_overrides",
                column: "equipment_id");

            migrationBuilder.CreateIndex(
                name: "ix_fitness_overrides_run_id",
                table: "fitness_overrides",
                column: "run_id");

            migrationBuilder.CreateIndex(
                name: "ix_fitness_overrides_signature_id",
                table: "fitness_overrides",
                column: "signature_id");

            migrationBuilder.CreateIndex(
                name: "ix_reference_checks_material_id",
                table: "reference_checks",
                column: "material_id");

            migrationBuilder.CreateIndex(
                name: "ix_reference_checks_sieve_id_at",
                table: "reference_checks",
                columns: new[] { "sieve_id", "at" });

            migrationBuilder.CreateIndex(
                name: "ix_reference_materials_name_batch",
                table: "reference_materials",
                columns: new[] { "name", "batch" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_repeatability_tests_balance_id_at",
                table: "repeatability_tests",
                columns: new[] { "balance_id", "at" });

            migrationBuilder.CreateIndex(
                name: "ix_sieve_cleanings_sieve_id_at",
                table: "sieve_cleanings",
                columns: new[] { "sieve_id", "at" });

            migrationBuilder.CreateIndex(
                name: "ix_sieve_inspections_photograph_id",
                table: "sieve_inspections",
                column: "photograph_id");

            migrationBuilder.CreateIndex(
                name: "ix_sieve_inspections_sieve_id_at",
                table: "sieve_inspections",
                columns: new[] { "sieve_id", "at" });

            migrationBuilder.CreateIndex(
                name: "ix_touched_lots_lot_id",
                table: "touched_lots",
                column: "lot_id");

            migrationBuilder.CreateIndex(
                name: "ix_touched_runs_run_id",
                table: "touched_runs",
                column: "run_id");

            migrationBuilder.CreateIndex(
                name: "ix_touched_runs_sample_id",
                table: "touched_runs",
                column: "sample_id");

            // What is in service was found fit when it was last commissioned, inspected or returned.
            foreach (var table in new[] { "test_sieves", "balances", "sieving_units" })
            {
                migrationBuilder.Sql($"UPDATE {table} SET inspected_at = (SELECT MAX(at) FROM equipment_events WHERE equipment_id = {table}.id AND what IN ('Commissioned', 'Inspected', 'Returned to service'));");
            }

            foreach (var (table, key) in ParticleLims.Laboratory.Storage.AppendOnlyTables.Sixth)
            {
                AppendOnlyTriggers.Add(migrationBuilder, table, key);
            }
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "aperture_measurements");

            migrationBuilder.DropTable(
                name: "check_weight_calibrations");

            migrationBuilder.DropTable(
                name: "equipment_files");

            migrationBuilder.DropTable(
                name: "fitness_overrides");

            migrationBuilder.DropTable(
                name: "reference_checks");

            migrationBuilder.DropTable(
                name: "repeatability_tests");

            migrationBuilder.DropTable(
                name: "sieve_cleanings");

            migrationBuilder.DropTable(
                name: "sieve_inspections");

            migrationBuilder.DropTable(
                name: "touched_lots");

            migrationBuilder.DropTable(
                name: "touched_runs");

            migrationBuilder.DropTable(
                name: "check_weights");

            migrationBuilder.DropTable(
                name: "reference_materials");

            migrationBuilder.DropTable(
                name: "equipment_documents");

            migrationBuilder.DropTable(
                name: "equipment_failures");

            migrationBuilder.DropColumn(
                name: "inspect_every_days",
                table: "test_sieves");

            migrationBuilder.DropColumn(
                name: "inspect_every_runs",
                table: "test_sieves");

            migrationBuilder.DropColumn(
                name: "inspected_at",
                table: "test_sieves");

            migrationBuilder.DropColumn(
                name: "tare_from",
                table: "test_sieves");

            migrationBuilder.DropColumn(
                name: "tare_scatter",
                table: "test_sieves");

            migrationBuilder.DropColumn(
                name: "tare_signal",
                table: "test_sieves");

            migrationBuilder.DropColumn(
                name: "tare_signal_at",
                table: "test_sieves");

            migrationBuilder.DropColumn(
                name: "inspected_at",
                table: "sieving_units");

            migrationBuilder.DropColumn(
                name: "effective_aperture",
                table: "run_sieves");

            migrationBuilder.DropColumn(
                name: "effective_uncertainty",
                table: "run_sieves");

            migrationBuilder.DropColumn(
                name: "effective_apertures",
                table: "method_versions");

            migrationBuilder.DropColumn(
                name: "inspected_at",
                table: "balances");

            migrationBuilder.DropColumn(
                name: "level_seen",
                table: "balance_checks");

            migrationBuilder.DropColumn(
                name: "warmed_up",
                table: "balance_checks");

            migrationBuilder.DropColumn(
                name: "way_in",
                table: "balance_checks");

            migrationBuilder.DropColumn(
                name: "weight_serial",
                table: "balance_checks");
        }
    }
}
