using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ParticleLims.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class SeveralSamples : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "certificate_further_samples",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    certificate_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    position = table.Column<int>(type: "INTEGER", nullable: false),
                    lot_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    lot_number = table.Column<string>(type: "TEXT", nullable: false),
                    sample_id = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_certificate_further_samples", x => x.id);
                    table.ForeignKey(
                        name: "fk_certificate_further_samples_certificates_certificate_id",
                        column: x => x.certificate_id,
                        principalTable: "certificates",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_certificate_further_samples_lots_lot_id",
                        column: x => x.lot_id,
                        principalTable: "lots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_certificate_further_samples_samples_sample_id",
                        column: x => x.sample_id,
                        principalTable: "samples",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_certificate_further_samples_certificate_id_position",
                table: "certificate_further_samples",
                columns: new[] { "certificate_id", "position" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_certificate_further_samples_lot_id",
                table: "certificate_further_samples",
                column: "lot_id");

            migrationBuilder.CreateIndex(
                name: "ix_certificate_further_samples_sample_id",
                table: "certificate_further_samples",
                column: "sample_id");

            foreach (var (table, key) in ParticleLims.Laboratory.Storage.AppendOnlyTables.Fourteenth)
            {
                AppendOnlyTriggers.Add(migrationBuilder, table, key);
            }
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "certificate_further_samples");
        }
    }
}
