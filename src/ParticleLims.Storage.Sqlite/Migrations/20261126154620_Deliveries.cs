using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ParticleLims.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class Deliveries : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "posted",
                table: "outgoing_settings",
                type: "TEXT",
                maxLength: 500,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "facts",
                table: "outgoing_messages",
                type: "TEXT",
                maxLength: 4000,
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "certificate_link_only",
                table: "customers",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<bool>(
                name: "certificate_twin_by_mail",
                table: "customers",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);

            migrationBuilder.CreateTable(
                name: "certificate_holds",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    certificate_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    case_kind = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    case_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    case_number = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    suspended_before = table.Column<bool>(type: "INTEGER", nullable: false),
                    ended_at = table.Column<long>(type: "INTEGER", nullable: true),
                    outcome = table.Column<string>(type: "TEXT", maxLength: 200, nullable: true),
                    kept = table.Column<bool>(type: "INTEGER", nullable: false),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_certificate_holds", x => x.id);
                    table.ForeignKey(
                        name: "fk_certificate_holds_certificates_certificate_id",
                        column: x => x.certificate_id,
                        principalTable: "certificates",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "customer_contacts",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    customer_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    name = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    address = table.Column<string>(type: "TEXT", maxLength: 320, nullable: false),
                    language = table.Column<string>(type: "TEXT", maxLength: 2, nullable: true),
                    receives_certificates = table.Column<bool>(type: "INTEGER", nullable: false),
                    bounced_at = table.Column<long>(type: "INTEGER", nullable: true),
                    bounce_words = table.Column<string>(type: "TEXT", maxLength: 500, nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_customer_contacts", x => x.id);
                    table.ForeignKey(
                        name: "fk_customer_contacts_customers_customer_id",
                        column: x => x.customer_id,
                        principalTable: "customers",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "mail_texts",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    customer_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    language = table.Column<string>(type: "TEXT", maxLength: 2, nullable: false),
                    subject = table.Column<string>(type: "TEXT", maxLength: 150, nullable: true),
                    text = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_mail_texts", x => x.id);
                    table.ForeignKey(
                        name: "fk_mail_texts_customers_customer_id",
                        column: x => x.customer_id,
                        principalTable: "customers",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "certificate_deliveries",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    certificate_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    certificate_number = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    customer_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    contact_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    contact_name = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    address = table.Column<string>(type: "TEXT", maxLength: 320, nullable: false),
                    language = table.Column<string>(type: "TEXT", maxLength: 2, nullable: false),
                    kind = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    queued_at = table.Column<long>(type: "INTEGER", nullable: false),
                    queued_by_name = table.Column<string>(type: "TEXT", nullable: false),
                    message_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    not_queued = table.Column<string>(type: "TEXT", maxLength: 500, nullable: true),
                    settled_at = table.Column<long>(type: "INTEGER", nullable: true),
                    settled_by_name = table.Column<string>(type: "TEXT", nullable: true),
                    settled_words = table.Column<string>(type: "TEXT", nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_certificate_deliveries", x => x.id);
                    table.ForeignKey(
                        name: "fk_certificate_deliveries_certificates_certificate_id",
                        column: x => x.certificate_id,
                        principalTable: "certificates",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_certificate_deliveries_customer_contacts_contact_id",
                        column: x => x.contact_id,
                        principalTable: "customer_contacts",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_certificate_deliveries_certificate_id_contact_id_queued_at",
                table: "certificate_deliveries",
                columns: new[] { "certificate_id", "contact_id", "queued_at" });

            migrationBuilder.CreateIndex(
                name: "ix_certificate_deliveries_contact_id",
                table: "certificate_deliveries",
                column: "contact_id");

            migrationBuilder.CreateIndex(
                name: "ix_certificate_deliveries_customer_id_queued_at",
                table: "certificate_deliveries",
                columns: new[] { "customer_id", "queued_at" });

            migrationBuilder.CreateIndex(
                name: "ix_certificate_deliveries_message_id",
                table: "certificate_deliveries",
                column: "message_id");

            migrationBuilder.CreateIndex(
                name: "ix_certificate_deliveries_settled_at",
                table: "certificate_deliveries",
                column: "settled_at");

            migrationBuilder.CreateIndex(
                name: "ix_certificate_holds_case_id_certificate_id",
                table: "certificate_holds",
                columns: new[] { "case_id", "certificate_id" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_certificate_holds_certificate_id",
                table: "certificate_holds",
                column: "certificate_id");

            migrationBuilder.CreateIndex(
                name: "ix_customer_contacts_customer_id_address",
                table: "customer_contacts",
                columns: new[] { "customer_id", "address" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_mail_texts_customer_id_language",
                table: "mail_texts",
                columns: new[] { "customer_id", "language" },
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "certificate_deliveries");

            migrationBuilder.DropTable(
                name: "certificate_holds");

            migrationBuilder.DropTable(
                name: "mail_texts");

            migrationBuilder.DropTable(
                name: "customer_contacts");

            migrationBuilder.DropColumn(
                name: "posted",
                table: "outgoing_settings");

            migrationBuilder.DropColumn(
                name: "facts",
                table: "outgoing_messages");

            migrationBuilder.DropColumn(
                name: "certificate_link_only",
                table: "customers");

            migrationBuilder.DropColumn(
                name: "certificate_twin_by_mail",
                table: "customers");
        }
    }
}
