using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ParticleLims.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class CertificateLifeAndWishes : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "certificate_language",
                table: "customers",
                type: "TEXT",
                maxLength: 2,
                nullable: false,
                defaultValue: "en");

            migrationBuilder.AddColumn<bool>(
                name: "certificate_net",
                table: "customers",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<string>(
                name: "certificate_paper",
                table: "customers",
                type: "TEXT",
                maxLength: 10,
                nullable: false,
                defaultValue: "A4");

            migrationBuilder.AddColumn<bool>(
                name: "certificate_weighings",
                table: "customers",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<Guid>(
                name: "replaces_id",
                table: "certificates",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "superseded_by_number",
                table: "certificates",
                type: "TEXT",
                maxLength: 20,
                nullable: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "certificate_language",
                table: "customers");

            migrationBuilder.DropColumn(
                name: "certificate_net",
                table: "customers");

            migrationBuilder.DropColumn(
                name: "certificate_paper",
                table: "customers");

            migrationBuilder.DropColumn(
                name: "certificate_weighings",
                table: "customers");

            migrationBuilder.DropColumn(
                name: "replaces_id",
                table: "certificates");

            migrationBuilder.DropColumn(
                name: "superseded_by_number",
                table: "certificates");
        }
    }
}
