using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ParticleLims.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class SieveLooks : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "sieve_looks",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    run_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    position = table.Column<int>(type: "INTEGER", nullable: false),
                    usual = table.Column<long>(type: "INTEGER", nullable: false),
                    seen = table.Column<string>(type: "TEXT", maxLength: 1000, nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    person_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    person_name = table.Column<string>(type: "TEXT", nullable: false),
                    terminal = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_sieve_looks", x => x.id);
                    table.ForeignKey(
                        name: "fk_sieve_looks_runs_run_id",
                        column: x => x.run_id,
                        principalTable: "runs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_sieve_looks_run_id",
                table: "sieve_looks",
                column: "run_id");

            foreach (var (table, key) in ParticleLims.Laboratory.Storage.AppendOnlyTables.Fifth)
            {
                AppendOnlyTriggers.Add(migrationBuilder, table, key);
            }
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "sieve_looks");
        }
    }
}
