using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

#pragma warning disable CA1814 // Prefer jagged arrays over multidimensional

namespace ParticleLims.Storage.Postgres.Migrations
{
    /// <inheritdoc />
    public partial class ReadingFormats : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "reading_formats",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    name = table.Column<string>(type: "character varying(60)", maxLength: 60, nullable: false),
                    pattern = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    stable_marks = table.Column<string>(type: "character varying(60)", maxLength: 60, nullable: false),
                    unstable_marks = table.Column<string>(type: "character varying(60)", maxLength: 60, nullable: false),
                    overload_marks = table.Column<string>(type: "character varying(60)", maxLength: 60, nullable: false),
                    underload_marks = table.Column<string>(type: "character varying(60)", maxLength: 60, nullable: false),
                    without_mark = table.Column<string>(type: "character varying(60)", maxLength: 60, nullable: false),
                    units = table.Column<string>(type: "character varying(120)", maxLength: 120, nullable: false),
                    decimal_comma = table.Column<bool>(type: "boolean", nullable: false),
                    @checked = table.Column<bool>(name: "checked", type: "boolean", nullable: false),
                    line_end = table.Column<string>(type: "character varying(60)", maxLength: 60, nullable: false),
                    most_characters = table.Column<int>(type: "integer", nullable: false),
                    first_line_may_be_cut = table.Column<bool>(type: "boolean", nullable: false),
                    command = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    command_end = table.Column<string>(type: "character varying(60)", maxLength: 60, nullable: false),
                    ask_every_milliseconds = table.Column<int>(type: "integer", nullable: true),
                    lost_after_milliseconds = table.Column<int>(type: "integer", nullable: true),
                    version = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_reading_formats", x => x.id);
                });

            migrationBuilder.InsertData(
                table: "reading_formats",
                columns: new[] { "id", "ask_every_milliseconds", "checked", "command", "command_end", "decimal_comma", "first_line_may_be_cut", "line_end", "lost_after_milliseconds", "most_characters", "name", "overload_marks", "pattern", "stable_marks", "underload_marks", "units", "unstable_marks", "version", "without_mark" },
                values: new object[,]
                {
                    { new Guid("01980000-0000-7000-8000-000000000001"), null, false, null, "CarriageReturnLineFeed", false, true, "CarriageReturnLineFeed", 5000, 80, "Plain line", "O", "(?<stable>[A-Z]) (?<sign>[+-])(?<value>[ -~]{11}) (?<unit>[A-Za-z%]{1,4}) (?<serial>[0-9A-Za-z-]{1,16})", "S", "L", "g mg kg", "U", 1L, "Refused" },
                    { new Guid("01980000-0000-7000-8000-000000000002"), null, true, null, "CarriageReturnLineFeed", false, false, "CarriageReturnLineFeed", 5000, 80, "Plain line with checksum", "O", "(?<stable>[A-Z]) (?<sign>[+-])(?<value>[ -~]{11}) (?<unit>[A-Za-z%]{1,4}) (?<serial>[0-9A-Za-z-]{1,16}) \\*(?<check>[0-9A-F]{4})", "S", "L", "g mg kg", "U", 1L, "Refused" }
                });

            migrationBuilder.CreateIndex(
                name: "ix_reading_formats_name",
                table: "reading_formats",
                column: "name",
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "reading_formats");
        }
    }
}
