using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ParticleLims.Storage.Postgres.Migrations
{
    /// <inheritdoc />
    public partial class SamplingAndAlertLimits : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "combination",
                table: "specification_versions",
                type: "character varying(60)",
                maxLength: 60,
                nullable: false,
                defaultValue: "Mean");

            migrationBuilder.AddColumn<int>(
                name: "determinations",
                table: "specification_versions",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "sampling_increments",
                table: "specification_versions",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "sampling_least_mass",
                table: "specification_versions",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "sampling_procedure",
                table: "specification_versions",
                type: "character varying(400)",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "sampling_to_record",
                table: "specification_versions",
                type: "character varying(400)",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "increments",
                table: "samples",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "mass",
                table: "samples",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "recorded",
                table: "samples",
                type: "character varying(1000)",
                maxLength: 1000,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "sampling_lacks",
                table: "samples",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "greatest_spread",
                table: "limits",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "lower_alert",
                table: "limits",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "upper_alert",
                table: "limits",
                type: "bigint",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "sampling_acceptances",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    sample_id = table.Column<Guid>(type: "uuid", nullable: false),
                    sample_code = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: false),
                    lacks = table.Column<string>(type: "text", nullable: false),
                    reason = table.Column<string>(type: "text", nullable: false),
                    person_name = table.Column<string>(type: "text", nullable: false),
                    at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    signature_id = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_sampling_acceptances", x => x.id);
                    table.ForeignKey(
                        name: "fk_sampling_acceptances_samples_sample_id",
                        column: x => x.sample_id,
                        principalTable: "samples",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_sampling_acceptances_signatures_signature_id",
                        column: x => x.signature_id,
                        principalTable: "signatures",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_sampling_acceptances_sample_id",
                table: "sampling_acceptances",
                column: "sample_id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_sampling_acceptances_signature_id",
                table: "sampling_acceptances",
                column: "signature_id");

            foreach (var (table, _) in ParticleLims.Laboratory.Storage.AppendOnlyTables.Thirteenth)
            {
                AppendOnlyTriggers.Add(migrationBuilder, table);
            }
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "sampling_acceptances");

            migrationBuilder.DropColumn(
                name: "combination",
                table: "specification_versions");

            migrationBuilder.DropColumn(
                name: "determinations",
                table: "specification_versions");

            migrationBuilder.DropColumn(
                name: "sampling_increments",
                table: "specification_versions");

            migrationBuilder.DropColumn(
                name: "sampling_least_mass",
                table: "specification_versions");

            migrationBuilder.DropColumn(
                name: "sampling_procedure",
                table: "specification_versions");

            migrationBuilder.DropColumn(
                name: "sampling_to_record",
                table: "specification_versions");

            migrationBuilder.DropColumn(
                name: "increments",
                table: "samples");

            migrationBuilder.DropColumn(
                name: "mass",
                table: "samples");

            migrationBuilder.DropColumn(
                name: "recorded",
                table: "samples");

            migrationBuilder.DropColumn(
                name: "sampling_lacks",
                table: "samples");

            migrationBuilder.DropColumn(
                name: "greatest_spread",
                table: "limits");

            migrationBuilder.DropColumn(
                name: "lower_alert",
                table: "limits");

            migrationBuilder.DropColumn(
                name: "upper_alert",
                table: "limits");
        }
    }
}
