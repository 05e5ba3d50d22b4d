using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ParticleLims.Storage.Sqlite.Migrations
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
                type: "TEXT",
                maxLength: 120,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "model",
                table: "test_sieves",
                type: "TEXT",
                maxLength: 120,
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "reference_every_days",
                table: "test_sieves",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "reference_every_runs",
                table: "test_sieves",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "reference_from",
                table: "test_sieves",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "maker",
                table: "sieving_units",
                type: "TEXT",
                maxLength: 120,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "model",
                table: "sieving_units",
                type: "TEXT",
                maxLength: 120,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "software",
                table: "sieving_units",
                type: "TEXT",
                maxLength: 120,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "maker",
                table: "check_weights",
                type: "TEXT",
                maxLength: 120,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "model",
                table: "check_weights",
                type: "TEXT",
                maxLength: 120,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "maker",
                table: "balances",
                type: "TEXT",
                maxLength: 120,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "model",
                table: "balances",
                type: "TEXT",
                maxLength: 120,
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "repeat_every_days",
                table: "balances",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "repeat_from",
                table: "balances",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "software",
                table: "balances",
                type: "TEXT",
                maxLength: 120,
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "mean_warp",
                table: "aperture_measurements",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "mean_weft",
                table: "aperture_measurements",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "wire_nanometres",
                table: "aperture_measurements",
                type: "INTEGER",
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
