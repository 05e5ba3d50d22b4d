using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ParticleLims.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class Outgoing : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "outgoing_messages",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    kind = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    way = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    addressee = table.Column<string>(type: "TEXT", maxLength: 1000, nullable: false),
                    subject = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    text = table.Column<string>(type: "TEXT", maxLength: 8000, nullable: false),
                    subject_kind = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    subject_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    queued_at = table.Column<long>(type: "INTEGER", nullable: false),
                    state = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    tries = table.Column<int>(type: "INTEGER", nullable: false),
                    next_try_at = table.Column<long>(type: "INTEGER", nullable: true),
                    sent_at = table.Column<long>(type: "INTEGER", nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_outgoing_messages", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "outgoing_settings",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    mail_host = table.Column<string>(type: "TEXT", maxLength: 255, nullable: true),
                    mail_port = table.Column<int>(type: "INTEGER", nullable: false),
                    mail_security = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    mail_user = table.Column<string>(type: "TEXT", maxLength: 320, nullable: true),
                    mail_from = table.Column<string>(type: "TEXT", maxLength: 320, nullable: true),
                    webhook_address = table.Column<string>(type: "TEXT", maxLength: 1000, nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_outgoing_settings", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "outgoing_attachments",
                columns: table => new
                {
                    message_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    position = table.Column<int>(type: "INTEGER", nullable: false),
                    file_name = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    media_type = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    source_kind = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    source_id = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_outgoing_attachments", x => new { x.message_id, x.position });
                    table.ForeignKey(
                        name: "fk_outgoing_attachments_outgoing_messages_message_id",
                        column: x => x.message_id,
                        principalTable: "outgoing_messages",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "outgoing_attempts",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    message_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    sent = table.Column<bool>(type: "INTEGER", nullable: false),
                    outcome = table.Column<string>(type: "TEXT", maxLength: 500, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_outgoing_attempts", x => x.id);
                    table.ForeignKey(
                        name: "fk_outgoing_attempts_outgoing_messages_message_id",
                        column: x => x.message_id,
                        principalTable: "outgoing_messages",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_outgoing_attempts_message_id",
                table: "outgoing_attempts",
                column: "message_id");

            migrationBuilder.CreateIndex(
                name: "ix_outgoing_messages_next_try_at",
                table: "outgoing_messages",
                column: "next_try_at");

            migrationBuilder.CreateIndex(
                name: "ix_outgoing_messages_subject_id",
                table: "outgoing_messages",
                column: "subject_id");

            foreach (var (table, key) in ParticleLims.Laboratory.Storage.AppendOnlyTables.Eighth)
            {
                AppendOnlyTriggers.Add(migrationBuilder, table, key);
            }
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "outgoing_attachments");

            migrationBuilder.DropTable(
                name: "outgoing_attempts");

            migrationBuilder.DropTable(
                name: "outgoing_settings");

            migrationBuilder.DropTable(
                name: "outgoing_messages");
        }
    }
}
