using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ParticleLims.Storage.Postgres.Migrations
{
    /// <inheritdoc />
    public partial class EquipmentPlatesAndIntervals : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "maker",
                table: "test_sieves",
                type: "character varying(120)",
                maxLength: 120,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "model",
                table: "test_sieves",
                type: "character varying(120)",
                maxLength: 120,
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "reference_every_days",
                table: "test_sieves",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "reference_every_runs",
                table: "test_sieves",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<DateTime>(
                name: "reference_from",
                table: "test_sieves",
                type: "timestamp with time zone",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "maker",
                table: "sieving_units",
                type: "character varying(120)",
                maxLength: 120,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "model",
                table: "sieving_units",
                type: "character varying(120)",
                maxLength: 120,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "software",
                table: "sieving_units",
                type: "character varying(120)",
                maxLength: 120,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "maker",
                table: "check_weights",
                type: "character varying(120)",
                maxLength: 120,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "model",
                table: "check_weights",
                type: "character varying(120)",
                maxLength: 120,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "maker",
                table: "balances",
                type: "character varying(120)",
                maxLength: 120,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "model",
                table: "balances",
                type: "character varying(120)",
                maxLength: 120,
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "repeat_every_days",
                table: "balances",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<DateTime>(
                name: "repeat_from",
                table: "balances",
                type: "timestamp with time zone",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "software",
                table: "balances",
                type: "character varying(120)",
                maxLength: 120,
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "mean_warp",
                table: "aperture_measurements",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "mean_weft",
                table: "aperture_measurements",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "wire_nanometres",
                table: "aperture_measurements",
                type: "bigint",
                nullable: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "maker",
                table: "test_sieves");

            migrationBuilder.DropColumn(
                name: "model",
                table: "test_sieves");

            migrationBuilder.DropColumn(
                name: "reference_every_days",
                table: "test_sieves");

            migrationBuilder.DropColumn(
                name: "reference_every_runs",
                table: "test_sieves");

            migrationBuilder.DropColumn(
                name: "reference_from",
                table: "test_sieves");

            migrationBuilder.DropColumn(
                name: "maker",
                table: "sieving_units");

            migrationBuilder.DropColumn(
                name: "model",
                table: "sieving_units");

            migrationBuilder.DropColumn(
                name: "software",
                table: "sieving_units");

            migrationBuilder.DropColumn(
                name: "maker",
                table: "check_weights");

            migrationBuilder.DropColumn(
                name: "model",
                table: "check_weights");

            migrationBuilder.DropColumn(
                name: "maker",
                table: "balances");

            migrationBuilder.DropColumn(
                name: "model",
                table: "balances");

            migrationBuilder.DropColumn(
                name: "repeat_every_days",
                table: "balances");

            migrationBuilder.DropColumn(
                name: "repeat_from",
                table: "balances");

            migrationBuilder.DropColumn(
                name: "software",
                table: "balances");

            migrationBuilder.DropColumn(
                name: "mean_warp",
                table: "aperture_measurements");

            migrationBuilder.DropColumn(
                name: "mean_weft",
                table: "aperture_measurements");

            migrationBuilder.DropColumn(
                name: "wire_nanometres",
                table: "aperture_measurements");
        }
    }
}
