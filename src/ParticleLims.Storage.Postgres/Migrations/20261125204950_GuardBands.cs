using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ParticleLims.Storage.Postgres.Migrations
{
    /// <inheritdoc />
    public partial class GuardBands : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<long>(
                name: "shape_factor",
                table: "products",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "true_density_grams_per_cubic_centimetre",
                table: "products",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "portion_uncertainty_percent",
                table: "method_versions",
                type: "bigint",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "guard_factor",
                table: "limits",
                type: "bigint",
                nullable: false,
                defaultValue: 1000000L);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "shape_factor",
                table: "products");

            migrationBuilder.DropColumn(
                name: "true_density_grams_per_cubic_centimetre",
                table: "products");

            migrationBuilder.DropColumn(
                name: "portion_uncertainty_percent",
                table: "method_versions");

            migrationBuilder.DropColumn(
                name: "guard_factor",
                table: "limits");
        }
    }
}
