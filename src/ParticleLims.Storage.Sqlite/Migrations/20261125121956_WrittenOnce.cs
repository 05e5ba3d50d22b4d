using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ParticleLims.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class WrittenOnce : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<Guid>(
                name: "person_id",
                table: "sieving_intervals",
                type: "TEXT",
                nullable: false,
                defaultValue: new Guid("00000000-0000-0000-0000-000000000000"));

            migrationBuilder.AddColumn<string>(
                name: "asked",
                table: "idempotency_keys",
                type: "TEXT",
                maxLength: 64,
                nullable: false,
                defaultValue: "");

            migrationBuilder.CreateIndex(
                name: "ix_investigations_run_id",
                table: "investigations",
                column: "run_id");

            migrationBuilder.CreateIndex(
                name: "ix_certificates_sample_id",
                table: "certificates",
                column: "sample_id");

            foreach (var (table, key) in ParticleLims.Laboratory.Storage.AppendOnlyTables.Second)
            {
                AppendOnlyTriggers.Add(migrationBuilder, table, key);
            }
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "ix_investigations_run_id",
                table: "investigations");

            migrationBuilder.DropIndex(
                name: "ix_certificates_sample_id",
                table: "certificates");

            migrationBuilder.DropColumn(
                name: "person_id",
                table: "sieving_intervals");

            migrationBuilder.DropColumn(
                name: "asked",
                table: "idempotency_keys");
        }
    }
}
