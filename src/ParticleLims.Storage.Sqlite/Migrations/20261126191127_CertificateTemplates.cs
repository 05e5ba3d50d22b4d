using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ParticleLims.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class CertificateTemplates : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<Guid>(
                name: "certificate_template",
                table: "customers",
                type: "TEXT",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "certificate_logos",
                columns: table => new
                {
                    sha256 = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    media_type = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    width = table.Column<int>(type: "INTEGER", nullable: false),
                    height = table.Column<int>(type: "INTEGER", nullable: false),
                    bytes = table.Column<byte[]>(type: "BLOB", nullable: false),
                    added_at = table.Column<long>(type: "INTEGER", nullable: false),
                    added_by_name = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_certificate_logos", x => x.sha256);
                });

            migrationBuilder.CreateTable(
                name: "certificate_templates",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    code = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    title = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_certificate_templates", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "certificate_template_versions",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    written = table.Column<string>(type: "TEXT", nullable: false),
                    document_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    number = table.Column<int>(type: "INTEGER", nullable: false),
                    state = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    author_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    author_name = table.Column<string>(type: "TEXT", nullable: false),
                    written_at = table.Column<long>(type: "INTEGER", nullable: false),
                    what_changed = table.Column<string>(type: "TEXT", nullable: false),
                    approved_by_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    approved_by_name = table.Column<string>(type: "TEXT", nullable: true),
                    in_force_from = table.Column<long>(type: "INTEGER", nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_certificate_template_versions", x => x.id);
                    table.ForeignKey(
                        name: "fk_certificate_template_versions_certificate_templates_document_id",
                        column: x => x.document_id,
                        principalTable: "certificate_templates",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_certificate_template_versions_document_id_number",
                table: "certificate_template_versions",
                columns: new[] { "document_id", "number" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_certificate_templates_code",
                table: "certificate_templates",
                column: "code",
                unique: true);

            foreach (var (table, key) in ParticleLims.Laboratory.Storage.AppendOnlyTables.Logos)
            {
                AppendOnlyTriggers.Add(migrationBuilder, table, key);
            }
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "certificate_logos");

            migrationBuilder.DropTable(
                name: "certificate_template_versions");

            migrationBuilder.DropTable(
                name: "certificate_templates");

            migrationBuilder.DropColumn(
                name: "certificate_template",
                table: "customers");
        }
    }
}
