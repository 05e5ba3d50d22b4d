using System;
using Microsoft.EntityFrameworkCore.Migrations;
using ParticleLims.Laboratory.Storage;

#nullable disable

namespace ParticleLims.Storage.Postgres.Migrations
{
    /// <inheritdoc />
    public partial class ParticularsOfLotsAndProducts : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "identification",
                table: "products",
                type: "character varying(120)",
                maxLength: 120,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "manufacturer",
                table: "products",
                type: "character varying(300)",
                maxLength: 300,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "container",
                table: "lots",
                type: "character varying(200)",
                maxLength: 200,
                nullable: true);

            migrationBuilder.AddColumn<DateOnly>(
                name: "expires_on",
                table: "lots",
                type: "date",
                nullable: true);

            migrationBuilder.AddColumn<DateOnly>(
                name: "retest_on",
                table: "lots",
                type: "date",
                nullable: true);

            foreach (var (table, columns) in AppendOnlyTables.Corrected)
            {
                AppendOnlyTriggers.Fix(migrationBuilder, table, columns);
            }
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "identification",
                table: "products");

            migrationBuilder.DropColumn(
                name: "manufacturer",
                table: "products");

            migrationBuilder.DropColumn(
                name: "container",
                table: "lots");

            migrationBuilder.DropColumn(
                name: "expires_on",
                table: "lots");

            migrationBuilder.DropColumn(
                name: "retest_on",
                table: "lots");
        }
    }
}
