using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ParticleLims.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class SecondFactors : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "activations",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    person_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    code_hash = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    issued_by_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    issued_by = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    issued_at = table.Column<long>(type: "INTEGER", nullable: false),
                    expires_at = table.Column<long>(type: "INTEGER", nullable: false),
                    first = table.Column<bool>(type: "INTEGER", nullable: false),
                    used_at = table.Column<long>(type: "INTEGER", nullable: true),
                    replaced_at = table.Column<long>(type: "INTEGER", nullable: true),
                    confirmed_by = table.Column<string>(type: "TEXT", maxLength: 200, nullable: true),
                    confirmed_at = table.Column<long>(type: "INTEGER", nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_activations", x => x.id);
                    table.ForeignKey(
                        name: "fk_activations_people_person_id",
                        column: x => x.person_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "one_time_code_keys",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    person_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    sealed_key = table.Column<string>(type: "TEXT", maxLength: 1000, nullable: false),
                    made_at = table.Column<long>(type: "INTEGER", nullable: false),
                    confirmed_at = table.Column<long>(type: "INTEGER", nullable: true),
                    removed_at = table.Column<long>(type: "INTEGER", nullable: true),
                    last_step = table.Column<long>(type: "INTEGER", nullable: false),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_one_time_code_keys", x => x.id);
                    table.ForeignKey(
                        name: "fk_one_time_code_keys_people_person_id",
                        column: x => x.person_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "passkeys",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    person_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    name = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    credential_id = table.Column<byte[]>(type: "BLOB", maxLength: 1023, nullable: false),
                    public_key = table.Column<byte[]>(type: "BLOB", maxLength: 4096, nullable: false),
                    sign_count = table.Column<long>(type: "INTEGER", nullable: false),
                    transports = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    backup_eligible = table.Column<bool>(type: "INTEGER", nullable: false),
                    backed_up = table.Column<bool>(type: "INTEGER", nullable: false),
                    made_at = table.Column<long>(type: "INTEGER", nullable: false),
                    last_used_at = table.Column<long>(type: "INTEGER", nullable: true),
                    revoked_at = table.Column<long>(type: "INTEGER", nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_passkeys", x => x.id);
                    table.ForeignKey(
                        name: "fk_passkeys_people_person_id",
                        column: x => x.person_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "recovery_codes",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    person_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    code_hash = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    made_at = table.Column<long>(type: "INTEGER", nullable: false),
                    used_at = table.Column<long>(type: "INTEGER", nullable: true),
                    removed_at = table.Column<long>(type: "INTEGER", nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_recovery_codes", x => x.id);
                    table.ForeignKey(
                        name: "fk_recovery_codes_people_person_id",
                        column: x => x.person_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "sign_on_rules",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    second_factor_for_decisions = table.Column<bool>(type: "INTEGER", nullable: false),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_sign_on_rules", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "wrong_secrets",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    person_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    place = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    count = table.Column<int>(type: "INTEGER", nullable: false),
                    wait_until = table.Column<long>(type: "INTEGER", nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_wrong_secrets", x => x.id);
                    table.ForeignKey(
                        name: "fk_wrong_secrets_people_person_id",
                        column: x => x.person_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_activations_person_id",
                table: "activations",
                column: "person_id");

            migrationBuilder.CreateIndex(
                name: "ix_one_time_code_keys_person_id",
                table: "one_time_code_keys",
                column: "person_id");

            migrationBuilder.CreateIndex(
                name: "ix_passkeys_credential_id",
                table: "passkeys",
                column: "credential_id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_passkeys_person_id",
                table: "passkeys",
                column: "person_id");

            migrationBuilder.CreateIndex(
                name: "ix_recovery_codes_person_id",
                table: "recovery_codes",
                column: "person_id");

            migrationBuilder.CreateIndex(
                name: "ix_wrong_secrets_person_id_place",
                table: "wrong_secrets",
                columns: new[] { "person_id", "place" },
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "activations");

            migrationBuilder.DropTable(
                name: "one_time_code_keys");

            migrationBuilder.DropTable(
                name: "passkeys");

            migrationBuilder.DropTable(
                name: "recovery_codes");

            migrationBuilder.DropTable(
                name: "sign_on_rules");

            migrationBuilder.DropTable(
                name: "wrong_secrets");
        }
    }
}
