using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ParticleLims.Storage.Sqlite.Migrations
{
    /// <summary>Each balance has a way in, and each weighing keeps the one it came by; until now there was the network only.</summary>
    public partial class WaysIn : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<Guid>(
                name: "confirmed_by_id",
                table: "weighings",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "confirmed_by_name",
                table: "weighings",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "way_in",
                table: "weighings",
                type: "TEXT",
                maxLength: 60,
                nullable: false,
                defaultValue: "Network");

            migrationBuilder.AddColumn<bool>(
                name: "each_line_is_print",
                table: "reading_formats",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<bool>(
                name: "keying_allowed",
                table: "laboratory_settings",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<int>(
                name: "baud_rate",
                table: "balances",
                type: "INTEGER",
                nullable: false,
                defaultValue: 9600);

            migrationBuilder.AddColumn<int>(
                name: "data_bits",
                table: "balances",
                type: "INTEGER",
                nullable: false,
                defaultValue: 8);

            migrationBuilder.AddColumn<string>(
                name: "device",
                table: "balances",
                type: "TEXT",
                maxLength: 120,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "parity",
                table: "balances",
                type: "TEXT",
                maxLength: 60,
                nullable: false,
                defaultValue: "None");

            migrationBuilder.AddColumn<int>(
                name: "stop_bits",
                table: "balances",
                type: "INTEGER",
                nullable: false,
                defaultValue: 1);

            migrationBuilder.AddColumn<string>(
                name: "way_in",
                table: "balances",
                type: "TEXT",
                maxLength: 60,
                nullable: false,
                defaultValue: "Network");

        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "confirmed_by_id",
                table: "weighings");

            migrationBuilder.DropColumn(
                name: "confirmed_by_name",
                table: "weighings");

            migrationBuilder.DropColumn(
                name: "way_in",
                table: "weighings");

            migrationBuilder.DropColumn(
                name: "each_line_is_print",
                table: "reading_formats");

            migrationBuilder.DropColumn(
                name: "keying_allowed",
                table: "laboratory_settings");

            migrationBuilder.DropColumn(
                name: "baud_rate",
                table: "balances");

            migrationBuilder.DropColumn(
                name: "data_bits",
                table: "balances");

            migrationBuilder.DropColumn(
                name: "device",
                table: "balances");

            migrationBuilder.DropColumn(
                name: "parity",
                table: "balances");

            migrationBuilder.DropColumn(
                name: "stop_bits",
                table: "balances");

            migrationBuilder.DropColumn(
                name: "way_in",
                table: "balances");
        }
    }
}
