using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ParticleLims.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class LotPlaces : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "ix_lots_customer_id",
                table: "lots");

            migrationBuilder.DropIndex(
                name: "ix_lots_product_id",
                table: "lots");

            migrationBuilder.CreateIndex(
                name: "ix_lots_customer_id_booked_in_at_id",
                table: "lots",
                columns: new[] { "customer_id", "booked_in_at", "id" });

            migrationBuilder.CreateIndex(
                name: "ix_lots_made_on_id",
                table: "lots",
                columns: new[] { "made_on", "id" });

            migrationBuilder.CreateIndex(
                name: "ix_lots_product_id_booked_in_at_id",
                table: "lots",
                columns: new[] { "product_id", "booked_in_at", "id" });

            migrationBuilder.CreateIndex(
                name: "ix_lots_search_number_id",
                table: "lots",
                columns: new[] { "search_number", "id" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "ix_lots_customer_id_booked_in_at_id",
                table: "lots");

            migrationBuilder.DropIndex(
                name: "ix_lots_made_on_id",
                table: "lots");

            migrationBuilder.DropIndex(
                name: "ix_lots_product_id_booked_in_at_id",
                table: "lots");

            migrationBuilder.DropIndex(
                name: "ix_lots_search_number_id",
                table: "lots");

            migrationBuilder.CreateIndex(
                name: "ix_lots_customer_id",
                table: "lots",
                column: "customer_id");

            migrationBuilder.CreateIndex(
                name: "ix_lots_product_id",
                table: "lots",
                column: "product_id");
        }
    }
}
