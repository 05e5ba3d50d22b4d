using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ParticleLims.Storage.Postgres.Migrations
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
                type: "character varying(2)",
                maxLength: 2,
                nullable: false,
                defaultValue: "en");

            migrationBuilder.AddColumn<bool>(
                name: "certificate_net",
                table: "customers",
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<string>(
                name: "certificate_paper",
                table: "customers",
                type: "character varying(10)",
                maxLength: 10,
                nullable: false,
                defaultValue: "A4");

            migrationBuilder.AddColumn<bool>(
                name: "certificate_weighings",
                table: "customers",
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<Guid>(
                name: "replaces_id",
                table: "certificates",
                type: "uuid",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "superseded_by_number",
                table: "certificates",
                type: "character varying(20)",
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
