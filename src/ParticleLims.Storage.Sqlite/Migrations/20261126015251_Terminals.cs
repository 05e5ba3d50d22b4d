using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ParticleLims.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class Terminals : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<int>(
                name: "lock_after_minutes",
                table: "laboratory_settings",
                type: "INTEGER",
                nullable: false,
                defaultValue: 5);

            migrationBuilder.AddColumn<bool>(
                name: "weigh_only_at_enrolled_terminals",
                table: "laboratory_settings",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);

            migrationBuilder.CreateTable(
                name: "badges",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    person_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    number = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    code_hash = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    issued_at = table.Column<long>(type: "INTEGER", nullable: false),
                    revoked_at = table.Column<long>(type: "INTEGER", nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_badges", x => x.id);
                    table.ForeignKey(
                        name: "fk_badges_people_person_id",
                        column: x => x.person_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "caution_acknowledgements",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    person_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    code = table.Column<string>(type: "TEXT", maxLength: 10, nullable: false),
                    texts_version = table.Column<int>(type: "INTEGER", nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_caution_acknowledgements", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "terminals",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    name = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    place = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    has_scanner = table.Column<bool>(type: "INTEGER", nullable: false),
                    secret_hash = table.Column<string>(type: "TEXT", maxLength: 64, nullable: true),
                    code_hash = table.Column<string>(type: "TEXT", maxLength: 64, nullable: true),
                    code_expires_at = table.Column<long>(type: "INTEGER", nullable: true),
                    enrolled_at = table.Column<long>(type: "INTEGER", nullable: true),
                    withdrawn_at = table.Column<long>(type: "INTEGER", nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_terminals", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "sessions",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    person_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    terminal = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    terminal_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    badge_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    way = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    stamp = table.Column<string>(type: "TEXT", nullable: false),
                    begun_at = table.Column<long>(type: "INTEGER", nullable: false),
                    ended_at = table.Column<long>(type: "INTEGER", nullable: true),
                    end_reason = table.Column<string>(type: "TEXT", maxLength: 60, nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_sessions", x => x.id);
                    table.ForeignKey(
                        name: "fk_sessions_badges_badge_id",
                        column: x => x.badge_id,
                        principalTable: "badges",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_sessions_people_person_id",
                        column: x => x.person_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_sessions_terminals_terminal_id",
                        column: x => x.terminal_id,
                        principalTable: "terminals",
                        principalColumn: "id");
                });

            migrationBuilder.CreateIndex(
                name: "ix_badges_code_hash",
                table: "badges",
                column: "code_hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_badges_person_id",
                table: "badges",
                column: "person_id");

            migrationBuilder.CreateIndex(
                name: "ix_caution_acknowledgements_person_id_texts_version_code",
                table: "caution_acknowledgements",
                columns: new[] { "person_id", "texts_version", "code" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_sessions_badge_id",
                table: "sessions",
                column: "badge_id");

            migrationBuilder.CreateIndex(
                name: "ix_sessions_person_id",
                table: "sessions",
                column: "person_id");

            migrationBuilder.CreateIndex(
                name: "ix_sessions_terminal_begun_at",
                table: "sessions",
                columns: new[] { "terminal", "begun_at" });

            migrationBuilder.CreateIndex(
                name: "ix_sessions_terminal_id",
                table: "sessions",
                column: "terminal_id");

            migrationBuilder.CreateIndex(
                name: "ix_terminals_code_hash",
                table: "terminals",
                column: "code_hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_terminals_secret_hash",
                table: "terminals",
                column: "secret_hash",
                unique: true);

            foreach (var (table, key) in ParticleLims.Laboratory.Storage.AppendOnlyTables.Fourth)
            {
                AppendOnlyTriggers.Add(migrationBuilder, table, key);
            }
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "caution_acknowledgements");

            migrationBuilder.DropTable(
                name: "sessions");

            migrationBuilder.DropTable(
                name: "badges");

            migrationBuilder.DropTable(
                name: "terminals");

            migrationBuilder.DropColumn(
                name: "lock_after_minutes",
                table: "laboratory_settings");

            migrationBuilder.DropColumn(
                name: "weigh_only_at_enrolled_terminals",
                table: "laboratory_settings");
        }
    }
}
