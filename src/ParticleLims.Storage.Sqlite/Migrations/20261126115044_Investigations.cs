using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ParticleLims.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class Investigations : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<Guid>(
                name: "replaces_sample_id",
                table: "samples",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "taken_again_because",
                table: "samples",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "by_another_person",
                table: "runs",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<string>(
                name: "invalidation_proposed",
                table: "runs",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "invalidation_proposed_by_id",
                table: "runs",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "retest_plan_id",
                table: "runs",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "new_sample_because",
                table: "lots",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "rework_words",
                table: "lots",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "reworked_from_id",
                table: "lots",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "sample_to_replace_id",
                table: "lots",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "investigation_working_days",
                table: "laboratory_settings",
                type: "INTEGER",
                nullable: false,
                defaultValue: 20);

            migrationBuilder.AddColumn<byte[]>(
                name: "curve",
                table: "evaluations",
                type: "BLOB",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "cause",
                table: "investigations",
                type: "TEXT",
                maxLength: 60,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "customers_told",
                table: "investigations",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<DateOnly>(
                name: "due_on",
                table: "investigations",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "kind",
                table: "investigations",
                type: "TEXT",
                maxLength: 60,
                nullable: false,
                defaultValue: "OutOfSpecification");

            migrationBuilder.AddColumn<string>(
                name: "no_other_lots",
                table: "investigations",
                type: "TEXT",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "associated_lots",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    investigation_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    lot_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    lot_number = table.Column<string>(type: "TEXT", nullable: false),
                    words = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    person_name = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_associated_lots", x => x.id);
                    table.ForeignKey(
                        name: "fk_associated_lots_investigations_investigation_id",
                        column: x => x.investigation_id,
                        principalTable: "investigations",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_associated_lots_lots_lot_id",
                        column: x => x.lot_id,
                        principalTable: "lots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "hypotheses",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    investigation_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    what = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    how = table.Column<string>(type: "TEXT", nullable: false),
                    judging = table.Column<string>(type: "TEXT", nullable: false),
                    proposed_by_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    proposed_by_name = table.Column<string>(type: "TEXT", nullable: false),
                    proposed_at = table.Column<long>(type: "INTEGER", nullable: false),
                    state = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    approved_by_name = table.Column<string>(type: "TEXT", nullable: true),
                    approved_at = table.Column<long>(type: "INTEGER", nullable: true),
                    outcome = table.Column<string>(type: "TEXT", maxLength: 60, nullable: true),
                    outcome_words = table.Column<string>(type: "TEXT", nullable: true),
                    ended_by_name = table.Column<string>(type: "TEXT", nullable: true),
                    ended_at = table.Column<long>(type: "INTEGER", nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_hypotheses", x => x.id);
                    table.ForeignKey(
                        name: "fk_hypotheses_investigations_investigation_id",
                        column: x => x.investigation_id,
                        principalTable: "investigations",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "investigation_answers",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    investigation_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    point = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    finding = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    words = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    person_name = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_investigation_answers", x => x.id);
                    table.ForeignKey(
                        name: "fk_investigation_answers_investigations_investigation_id",
                        column: x => x.investigation_id,
                        principalTable: "investigations",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "reopening_proposals",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    lot_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    proposed_by_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    proposed_by_name = table.Column<string>(type: "TEXT", nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    reason = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_reopening_proposals", x => x.id);
                    table.ForeignKey(
                        name: "fk_reopening_proposals_lots_lot_id",
                        column: x => x.lot_id,
                        principalTable: "lots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "retest_plans",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    investigation_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    count = table.Column<int>(type: "INTEGER", nullable: false),
                    portion = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    evaluation = table.Column<string>(type: "TEXT", nullable: false),
                    same_person_reason = table.Column<string>(type: "TEXT", nullable: true),
                    proposed_by_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    proposed_by_name = table.Column<string>(type: "TEXT", nullable: false),
                    proposed_at = table.Column<long>(type: "INTEGER", nullable: false),
                    state = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    decided_by_name = table.Column<string>(type: "TEXT", nullable: true),
                    decided_at = table.Column<long>(type: "INTEGER", nullable: true),
                    withdrawn_because = table.Column<string>(type: "TEXT", nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_retest_plans", x => x.id);
                    table.ForeignKey(
                        name: "fk_retest_plans_investigations_investigation_id",
                        column: x => x.investigation_id,
                        principalTable: "investigations",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "hypothesis_measurements",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    hypothesis_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    what = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    value = table.Column<long>(type: "INTEGER", nullable: false),
                    unit = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    person_name = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_hypothesis_measurements", x => x.id);
                    table.ForeignKey(
                        name: "fk_hypothesis_measurements_hypotheses_hypothesis_id",
                        column: x => x.hypothesis_id,
                        principalTable: "hypotheses",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_runs_retest_plan_id",
                table: "runs",
                column: "retest_plan_id");

            migrationBuilder.CreateIndex(
                name: "ix_associated_lots_investigation_id",
                table: "associated_lots",
                column: "investigation_id");

            migrationBuilder.CreateIndex(
                name: "ix_associated_lots_lot_id",
                table: "associated_lots",
                column: "lot_id");

            migrationBuilder.CreateIndex(
                name: "ix_hypotheses_investigation_id",
                table: "hypotheses",
                column: "investigation_id");

            migrationBuilder.CreateIndex(
                name: "ix_hypothesis_measurements_hypothesis_id",
                table: "hypothesis_measurements",
                column: "hypothesis_id");

            migrationBuilder.CreateIndex(
                name: "ix_investigation_answers_investigation_id",
                table: "investigation_answers",
                column: "investigation_id");

            migrationBuilder.CreateIndex(
                name: "ix_reopening_proposals_lot_id",
                table: "reopening_proposals",
                column: "lot_id");

            migrationBuilder.CreateIndex(
                name: "ix_retest_plans_investigation_id",
                table: "retest_plans",
                column: "investigation_id");

            foreach (var (table, key) in ParticleLims.Laboratory.Storage.AppendOnlyTables.Twelfth)
            {
                AppendOnlyTriggers.Add(migrationBuilder, table, key);
            }
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "associated_lots");

            migrationBuilder.DropTable(
                name: "hypothesis_measurements");

            migrationBuilder.DropTable(
                name: "investigation_answers");

            migrationBuilder.DropTable(
                name: "reopening_proposals");

            migrationBuilder.DropTable(
                name: "retest_plans");

            migrationBuilder.DropTable(
                name: "hypotheses");

            migrationBuilder.DropIndex(
                name: "ix_runs_retest_plan_id",
                table: "runs");

            migrationBuilder.DropColumn(
                name: "curve",
                table: "evaluations");

            migrationBuilder.DropColumn(
                name: "replaces_sample_id",
                table: "samples");

            migrationBuilder.DropColumn(
                name: "taken_again_because",
                table: "samples");

            migrationBuilder.DropColumn(
                name: "by_another_person",
                table: "runs");

            migrationBuilder.DropColumn(
                name: "invalidation_proposed",
                table: "runs");

            migrationBuilder.DropColumn(
                name: "invalidation_proposed_by_id",
                table: "runs");

            migrationBuilder.DropColumn(
                name: "retest_plan_id",
                table: "runs");

            migrationBuilder.DropColumn(
                name: "new_sample_because",
                table: "lots");

            migrationBuilder.DropColumn(
                name: "rework_words",
                table: "lots");

            migrationBuilder.DropColumn(
                name: "reworked_from_id",
                table: "lots");

            migrationBuilder.DropColumn(
                name: "sample_to_replace_id",
                table: "lots");

            migrationBuilder.DropColumn(
                name: "investigation_working_days",
                table: "laboratory_settings");

            migrationBuilder.DropColumn(
                name: "cause",
                table: "investigations");

            migrationBuilder.DropColumn(
                name: "customers_told",
                table: "investigations");

            migrationBuilder.DropColumn(
                name: "due_on",
                table: "investigations");

            migrationBuilder.DropColumn(
                name: "kind",
                table: "investigations");

            migrationBuilder.DropColumn(
                name: "no_other_lots",
                table: "investigations");
        }
    }
}
