using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ParticleLims.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class Laboratory : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "balances",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    serial = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    name = table.Column<string>(type: "TEXT", nullable: false),
                    place = table.Column<string>(type: "TEXT", nullable: false),
                    readability = table.Column<long>(type: "INTEGER", nullable: false),
                    capacity = table.Column<long>(type: "INTEGER", nullable: false),
                    repeatability = table.Column<long>(type: "INTEGER", nullable: false),
                    host = table.Column<string>(type: "TEXT", nullable: false),
                    port = table.Column<int>(type: "INTEGER", nullable: false),
                    reading_format = table.Column<string>(type: "TEXT", nullable: false),
                    check_weight = table.Column<long>(type: "INTEGER", nullable: false),
                    check_tolerance = table.Column<long>(type: "INTEGER", nullable: false),
                    state = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    state_reason = table.Column<string>(type: "TEXT", nullable: true),
                    inspection_due_on = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_balances", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "customers",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    name = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    address = table.Column<string>(type: "TEXT", nullable: false),
                    contact = table.Column<string>(type: "TEXT", nullable: false),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_customers", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "equipment_events",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    equipment_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    person_name = table.Column<string>(type: "TEXT", nullable: false),
                    what = table.Column<string>(type: "TEXT", maxLength: 80, nullable: false),
                    note = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_equipment_events", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "evaluations",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    run_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    engine_version = table.Column<string>(type: "TEXT", nullable: false),
                    input = table.Column<string>(type: "TEXT", nullable: false),
                    result = table.Column<string>(type: "TEXT", nullable: false),
                    result_hash = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_evaluations", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "idempotency_keys",
                columns: table => new
                {
                    key = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    code = table.Column<string>(type: "TEXT", maxLength: 80, nullable: false),
                    person_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    answer = table.Column<string>(type: "TEXT", nullable: false),
                    event_sequence = table.Column<long>(type: "INTEGER", nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_idempotency_keys", x => x.key);
                });

            migrationBuilder.CreateTable(
                name: "laboratory_settings",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    name = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    address = table.Column<string>(type: "TEXT", nullable: false),
                    contact = table.Column<string>(type: "TEXT", nullable: false),
                    time_zone = table.Column<string>(type: "TEXT", nullable: false),
                    public_address = table.Column<string>(type: "TEXT", nullable: false),
                    one_person_laboratory = table.Column<bool>(type: "INTEGER", nullable: false),
                    demonstration = table.Column<bool>(type: "INTEGER", nullable: false),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_laboratory_settings", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "number_series",
                columns: table => new
                {
                    name = table.Column<string>(type: "TEXT", nullable: false),
                    last = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_number_series", x => x.name);
                });

            migrationBuilder.CreateTable(
                name: "people",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    full_name = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    active = table.Column<bool>(type: "INTEGER", nullable: false),
                    customer_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    pin_hash = table.Column<string>(type: "TEXT", nullable: true),
                    created_at = table.Column<long>(type: "INTEGER", nullable: false),
                    version = table.Column<long>(type: "INTEGER", nullable: false),
                    user_name = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    normalized_user_name = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    email = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    normalized_email = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    email_confirmed = table.Column<bool>(type: "INTEGER", nullable: false),
                    password_hash = table.Column<string>(type: "TEXT", nullable: true),
                    security_stamp = table.Column<string>(type: "TEXT", nullable: true),
                    concurrency_stamp = table.Column<string>(type: "TEXT", nullable: true),
                    phone_number = table.Column<string>(type: "TEXT", nullable: true),
                    phone_number_confirmed = table.Column<bool>(type: "INTEGER", nullable: false),
                    two_factor_enabled = table.Column<bool>(type: "INTEGER", nullable: false),
                    lockout_end = table.Column<long>(type: "INTEGER", nullable: true),
                    lockout_enabled = table.Column<bool>(type: "INTEGER", nullable: false),
                    access_failed_count = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_people", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "products",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    code = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    name = table.Column<string>(type: "TEXT", nullable: false),
                    description = table.Column<string>(type: "TEXT", nullable: false),
                    hazards = table.Column<string>(type: "TEXT", maxLength: 60, nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_products", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "record_events",
                columns: table => new
                {
                    sequence = table.Column<long>(type: "INTEGER", nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    person_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    person_name = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    terminal = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    code = table.Column<string>(type: "TEXT", maxLength: 80, nullable: false),
                    subject_kind = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    subject_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    subject_label = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    reason = table.Column<string>(type: "TEXT", nullable: true),
                    changes = table.Column<string>(type: "TEXT", nullable: false),
                    search_text = table.Column<string>(type: "TEXT", nullable: false),
                    previous_hash = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    hash = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_record_events", x => x.sequence);
                });

            migrationBuilder.CreateTable(
                name: "set_up_links",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    token_hash = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    expires_at = table.Column<long>(type: "INTEGER", nullable: false),
                    used_at = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_set_up_links", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "signatures",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    person_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    printed_name = table.Column<string>(type: "TEXT", nullable: false),
                    function = table.Column<string>(type: "TEXT", nullable: false),
                    meaning = table.Column<string>(type: "TEXT", nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    subject_kind = table.Column<string>(type: "TEXT", nullable: false),
                    subject_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    content = table.Column<string>(type: "TEXT", nullable: false),
                    content_hash = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_signatures", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "test_sieves",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    serial = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    aperture = table.Column<long>(type: "INTEGER", nullable: false),
                    frame_millimetres = table.Column<int>(type: "INTEGER", nullable: false),
                    standard = table.Column<string>(type: "TEXT", nullable: false),
                    place = table.Column<string>(type: "TEXT", nullable: false),
                    state = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    state_reason = table.Column<string>(type: "TEXT", nullable: true),
                    inspection_due_on = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_test_sieves", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "balance_checks",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    balance_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    day = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    person_name = table.Column<string>(type: "TEXT", nullable: false),
                    nominal = table.Column<long>(type: "INTEGER", nullable: false),
                    shown = table.Column<long>(type: "INTEGER", nullable: false),
                    passed = table.Column<bool>(type: "INTEGER", nullable: false),
                    raw_line = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_balance_checks", x => x.id);
                    table.ForeignKey(
                        name: "fk_balance_checks_balances_balance_id",
                        column: x => x.balance_id,
                        principalTable: "balances",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "api_tokens",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    person_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    name = table.Column<string>(type: "TEXT", nullable: false),
                    hash = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    scopes = table.Column<string>(type: "TEXT", nullable: false),
                    created_at = table.Column<long>(type: "INTEGER", nullable: false),
                    expires_at = table.Column<long>(type: "INTEGER", nullable: false),
                    revoked_at = table.Column<long>(type: "INTEGER", nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_api_tokens", x => x.id);
                    table.ForeignKey(
                        name: "fk_api_tokens_people_person_id",
                        column: x => x.person_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "asp_net_user_claims",
                columns: table => new
                {
                    id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    user_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    claim_type = table.Column<string>(type: "TEXT", nullable: true),
                    claim_value = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_asp_net_user_claims", x => x.id);
                    table.ForeignKey(
                        name: "fk_asp_net_user_claims_people_user_id",
                        column: x => x.user_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "asp_net_user_logins",
                columns: table => new
                {
                    login_provider = table.Column<string>(type: "TEXT", nullable: false),
                    provider_key = table.Column<string>(type: "TEXT", nullable: false),
                    provider_display_name = table.Column<string>(type: "TEXT", nullable: true),
                    user_id = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_asp_net_user_logins", x => new { x.login_provider, x.provider_key });
                    table.ForeignKey(
                        name: "fk_asp_net_user_logins_people_user_id",
                        column: x => x.user_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "asp_net_user_tokens",
                columns: table => new
                {
                    user_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    login_provider = table.Column<string>(type: "TEXT", nullable: false),
                    name = table.Column<string>(type: "TEXT", nullable: false),
                    value = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_asp_net_user_tokens", x => new { x.user_id, x.login_provider, x.name });
                    table.ForeignKey(
                        name: "fk_asp_net_user_tokens_people_user_id",
                        column: x => x.user_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "person_roles",
                columns: table => new
                {
                    person_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    role = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    granted_at = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_person_roles", x => new { x.person_id, x.role });
                    table.ForeignKey(
                        name: "fk_person_roles_people_person_id",
                        column: x => x.person_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "lots",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    number = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    search_number = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    product_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    customer_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    quantity_kilograms = table.Column<long>(type: "INTEGER", nullable: false),
                    made_on = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    customer_reference = table.Column<string>(type: "TEXT", nullable: true),
                    booked_in_at = table.Column<long>(type: "INTEGER", nullable: false),
                    state = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_lots", x => x.id);
                    table.ForeignKey(
                        name: "fk_lots_customers_customer_id",
                        column: x => x.customer_id,
                        principalTable: "customers",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_lots_products_product_id",
                        column: x => x.product_id,
                        principalTable: "products",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "methods",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    code = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    title = table.Column<string>(type: "TEXT", nullable: false),
                    product_id = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_methods", x => x.id);
                    table.ForeignKey(
                        name: "fk_methods_products_product_id",
                        column: x => x.product_id,
                        principalTable: "products",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "specifications",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    code = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    title = table.Column<string>(type: "TEXT", nullable: false),
                    product_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    customer_id = table.Column<Guid>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_specifications", x => x.id);
                    table.ForeignKey(
                        name: "fk_specifications_customers_customer_id",
                        column: x => x.customer_id,
                        principalTable: "customers",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_specifications_products_product_id",
                        column: x => x.product_id,
                        principalTable: "products",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "certificates",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    number = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    revision = table.Column<int>(type: "INTEGER", nullable: false),
                    lot_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    lot_number = table.Column<string>(type: "TEXT", nullable: false),
                    sample_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    product_code = table.Column<string>(type: "TEXT", nullable: false),
                    search_text = table.Column<string>(type: "TEXT", nullable: false),
                    customer_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    customer_name = table.Column<string>(type: "TEXT", nullable: false),
                    issued_at = table.Column<long>(type: "INTEGER", nullable: false),
                    issued_by_name = table.Column<string>(type: "TEXT", nullable: false),
                    verify_token = table.Column<string>(type: "TEXT", nullable: false),
                    content = table.Column<string>(type: "TEXT", nullable: false),
                    content_hash = table.Column<string>(type: "TEXT", nullable: false),
                    file_hash = table.Column<string>(type: "TEXT", nullable: false),
                    state = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    state_reason = table.Column<string>(type: "TEXT", nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_certificates", x => x.id);
                    table.ForeignKey(
                        name: "fk_certificates_lots_lot_id",
                        column: x => x.lot_id,
                        principalTable: "lots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "concession_proposals",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    lot_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    proposed_by_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    proposed_by_name = table.Column<string>(type: "TEXT", nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    reason = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_concession_proposals", x => x.id);
                    table.ForeignKey(
                        name: "fk_concession_proposals_lots_lot_id",
                        column: x => x.lot_id,
                        principalTable: "lots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "dispositions",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    lot_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    decision = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    person_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    person_name = table.Column<string>(type: "TEXT", nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    reason = table.Column<string>(type: "TEXT", nullable: true),
                    signature_id = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_dispositions", x => x.id);
                    table.ForeignKey(
                        name: "fk_dispositions_lots_lot_id",
                        column: x => x.lot_id,
                        principalTable: "lots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "investigations",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    number = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    lot_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    lot_number = table.Column<string>(type: "TEXT", nullable: false),
                    run_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    run_number = table.Column<string>(type: "TEXT", nullable: false),
                    what = table.Column<string>(type: "TEXT", nullable: false),
                    opened_at = table.Column<long>(type: "INTEGER", nullable: false),
                    state = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    conclusion = table.Column<string>(type: "TEXT", maxLength: 60, nullable: true),
                    conclusion_words = table.Column<string>(type: "TEXT", nullable: true),
                    closed_at = table.Column<long>(type: "INTEGER", nullable: true),
                    closed_by_name = table.Column<string>(type: "TEXT", nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_investigations", x => x.id);
                    table.ForeignKey(
                        name: "fk_investigations_lots_lot_id",
                        column: x => x.lot_id,
                        principalTable: "lots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "method_versions",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    procedure = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    portion_least = table.Column<long>(type: "INTEGER", nullable: false),
                    portion_most = table.Column<long>(type: "INTEGER", nullable: false),
                    seconds = table.Column<int>(type: "INTEGER", nullable: false),
                    pressure_lowest = table.Column<long>(type: "INTEGER", nullable: true),
                    pressure_highest = table.Column<long>(type: "INTEGER", nullable: true),
                    replicates = table.Column<int>(type: "INTEGER", nullable: false),
                    percentiles = table.Column<string>(type: "TEXT", nullable: false),
                    reading = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    least_recovery_percent = table.Column<long>(type: "INTEGER", nullable: true),
                    most_transfer_loss_percent = table.Column<long>(type: "INTEGER", nullable: true),
                    repeatability_limit_percent = table.Column<long>(type: "INTEGER", nullable: true),
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
                    table.PrimaryKey("pk_method_versions", x => x.id);
                    table.ForeignKey(
                        name: "fk_method_versions_methods_document_id",
                        column: x => x.document_id,
                        principalTable: "methods",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "specification_versions",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
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
                    table.PrimaryKey("pk_specification_versions", x => x.id);
                    table.ForeignKey(
                        name: "fk_specification_versions_specifications_document_id",
                        column: x => x.document_id,
                        principalTable: "specifications",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "certificate_files",
                columns: table => new
                {
                    certificate_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    pdf = table.Column<byte[]>(type: "BLOB", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_certificate_files", x => x.certificate_id);
                    table.ForeignKey(
                        name: "fk_certificate_files_certificates_certificate_id",
                        column: x => x.certificate_id,
                        principalTable: "certificates",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "investigation_notes",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    investigation_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    person_name = table.Column<string>(type: "TEXT", nullable: false),
                    words = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_investigation_notes", x => x.id);
                    table.ForeignKey(
                        name: "fk_investigation_notes_investigations_investigation_id",
                        column: x => x.investigation_id,
                        principalTable: "investigations",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "method_sieves",
                columns: table => new
                {
                    method_version_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    position = table.Column<int>(type: "INTEGER", nullable: false),
                    aperture = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_method_sieves", x => new { x.method_version_id, x.position });
                    table.ForeignKey(
                        name: "fk_method_sieves_method_versions_method_version_id",
                        column: x => x.method_version_id,
                        principalTable: "method_versions",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "runs",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    number = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    sample_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    sample_code = table.Column<string>(type: "TEXT", nullable: false),
                    lot_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    lot_number = table.Column<string>(type: "TEXT", nullable: false),
                    product_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    product_code = table.Column<string>(type: "TEXT", nullable: false),
                    method_version_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    specification_version_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    replicate = table.Column<int>(type: "INTEGER", nullable: false),
                    replaces_run_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    state = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    balance_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    planned_at = table.Column<long>(type: "INTEGER", nullable: false),
                    started_at = table.Column<long>(type: "INTEGER", nullable: true),
                    started_by_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    started_by_name = table.Column<string>(type: "TEXT", nullable: true),
                    submitted_at = table.Column<long>(type: "INTEGER", nullable: true),
                    submitted_by_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    submitted_by_name = table.Column<string>(type: "TEXT", nullable: true),
                    evaluation_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    findings = table.Column<int>(type: "INTEGER", nullable: false),
                    state_reason = table.Column<string>(type: "TEXT", nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_runs", x => x.id);
                    table.ForeignKey(
                        name: "fk_runs_balances_balance_id",
                        column: x => x.balance_id,
                        principalTable: "balances",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_runs_lots_lot_id",
                        column: x => x.lot_id,
                        principalTable: "lots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_runs_method_versions_method_version_id",
                        column: x => x.method_version_id,
                        principalTable: "method_versions",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "limits",
                columns: table => new
                {
                    specification_version_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    position = table.Column<int>(type: "INTEGER", nullable: false),
                    characteristic = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    aperture = table.Column<long>(type: "INTEGER", nullable: true),
                    percent = table.Column<long>(type: "INTEGER", nullable: true),
                    lower = table.Column<long>(type: "INTEGER", nullable: true),
                    upper = table.Column<long>(type: "INTEGER", nullable: true),
                    digits = table.Column<int>(type: "INTEGER", nullable: false),
                    rule = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    printed = table.Column<bool>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_limits", x => new { x.specification_version_id, x.position });
                    table.ForeignKey(
                        name: "fk_limits_specification_versions_specification_version_id",
                        column: x => x.specification_version_id,
                        principalTable: "specification_versions",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "samples",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    code = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    lot_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    method_version_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    specification_version_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    taken_at = table.Column<long>(type: "INTEGER", nullable: true),
                    taken_by = table.Column<string>(type: "TEXT", nullable: false),
                    sampling_way = table.Column<string>(type: "TEXT", nullable: false),
                    description = table.Column<string>(type: "TEXT", nullable: false),
                    condition_on_receipt = table.Column<string>(type: "TEXT", nullable: false),
                    division = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    received_at = table.Column<long>(type: "INTEGER", nullable: false),
                    received_by_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    received_by_name = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_samples", x => x.id);
                    table.ForeignKey(
                        name: "fk_samples_lots_lot_id",
                        column: x => x.lot_id,
                        principalTable: "lots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_samples_method_versions_method_version_id",
                        column: x => x.method_version_id,
                        principalTable: "method_versions",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_samples_specification_versions_specification_version_id",
                        column: x => x.specification_version_id,
                        principalTable: "specification_versions",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "reviews",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    run_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    reviewer_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    reviewer_name = table.Column<string>(type: "TEXT", nullable: false),
                    outcome = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    reason = table.Column<string>(type: "TEXT", nullable: true),
                    signature_id = table.Column<Guid>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_reviews", x => x.id);
                    table.ForeignKey(
                        name: "fk_reviews_runs_run_id",
                        column: x => x.run_id,
                        principalTable: "runs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "run_sieves",
                columns: table => new
                {
                    run_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    position = table.Column<int>(type: "INTEGER", nullable: false),
                    aperture = table.Column<long>(type: "INTEGER", nullable: false),
                    sieve_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    sieve_serial = table.Column<string>(type: "TEXT", nullable: false),
                    fitness_then = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_run_sieves", x => new { x.run_id, x.position });
                    table.ForeignKey(
                        name: "fk_run_sieves_runs_run_id",
                        column: x => x.run_id,
                        principalTable: "runs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_run_sieves_test_sieves_sieve_id",
                        column: x => x.sieve_id,
                        principalTable: "test_sieves",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "sieving_intervals",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    run_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    position = table.Column<int>(type: "INTEGER", nullable: false),
                    started_at = table.Column<long>(type: "INTEGER", nullable: false),
                    ended_at = table.Column<long>(type: "INTEGER", nullable: true),
                    seconds = table.Column<int>(type: "INTEGER", nullable: false),
                    person_name = table.Column<string>(type: "TEXT", nullable: false),
                    pressure_lowest = table.Column<long>(type: "INTEGER", nullable: true),
                    pressure_mean = table.Column<long>(type: "INTEGER", nullable: true),
                    pressure_highest = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_sieving_intervals", x => x.id);
                    table.ForeignKey(
                        name: "fk_sieving_intervals_runs_run_id",
                        column: x => x.run_id,
                        principalTable: "runs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "weighings",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    run_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    kind = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    position = table.Column<int>(type: "INTEGER", nullable: false),
                    mass = table.Column<long>(type: "INTEGER", nullable: false),
                    decimals = table.Column<int>(type: "INTEGER", nullable: false),
                    raw_line = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    balance_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    person_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    person_name = table.Column<string>(type: "TEXT", nullable: false),
                    terminal = table.Column<string>(type: "TEXT", nullable: false),
                    at = table.Column<long>(type: "INTEGER", nullable: false),
                    supersedes_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    reason = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_weighings", x => x.id);
                    table.ForeignKey(
                        name: "fk_weighings_runs_run_id",
                        column: x => x.run_id,
                        principalTable: "runs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_api_tokens_hash",
                table: "api_tokens",
                column: "hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_api_tokens_person_id",
                table: "api_tokens",
                column: "person_id");

            migrationBuilder.CreateIndex(
                name: "ix_asp_net_user_claims_user_id",
                table: "asp_net_user_claims",
                column: "user_id");

            migrationBuilder.CreateIndex(
                name: "ix_asp_net_user_logins_user_id",
                table: "asp_net_user_logins",
                column: "user_id");

            migrationBuilder.CreateIndex(
                name: "ix_balance_checks_balance_id_day",
                table: "balance_checks",
                columns: new[] { "balance_id", "day" });

            migrationBuilder.CreateIndex(
                name: "ix_balances_serial",
                table: "balances",
                column: "serial",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_certificates_customer_id_issued_at",
                table: "certificates",
                columns: new[] { "customer_id", "issued_at" });

            migrationBuilder.CreateIndex(
                name: "ix_certificates_file_hash",
                table: "certificates",
                column: "file_hash");

            migrationBuilder.CreateIndex(
                name: "ix_certificates_lot_id",
                table: "certificates",
                column: "lot_id");

            migrationBuilder.CreateIndex(
                name: "ix_certificates_number",
                table: "certificates",
                column: "number",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_certificates_verify_token",
                table: "certificates",
                column: "verify_token",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_concession_proposals_lot_id",
                table: "concession_proposals",
                column: "lot_id");

            migrationBuilder.CreateIndex(
                name: "ix_customers_name",
                table: "customers",
                column: "name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_dispositions_lot_id",
                table: "dispositions",
                column: "lot_id");

            migrationBuilder.CreateIndex(
                name: "ix_equipment_events_equipment_id_at",
                table: "equipment_events",
                columns: new[] { "equipment_id", "at" });

            migrationBuilder.CreateIndex(
                name: "ix_evaluations_run_id",
                table: "evaluations",
                column: "run_id");

            migrationBuilder.CreateIndex(
                name: "ix_investigation_notes_investigation_id",
                table: "investigation_notes",
                column: "investigation_id");

            migrationBuilder.CreateIndex(
                name: "ix_investigations_lot_id",
                table: "investigations",
                column: "lot_id");

            migrationBuilder.CreateIndex(
                name: "ix_investigations_number",
                table: "investigations",
                column: "number",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_lots_booked_in_at_id",
                table: "lots",
                columns: new[] { "booked_in_at", "id" });

            migrationBuilder.CreateIndex(
                name: "ix_lots_customer_id",
                table: "lots",
                column: "customer_id");

            migrationBuilder.CreateIndex(
                name: "ix_lots_product_id",
                table: "lots",
                column: "product_id");

            migrationBuilder.CreateIndex(
                name: "ix_lots_search_number",
                table: "lots",
                column: "search_number",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_lots_state_booked_in_at",
                table: "lots",
                columns: new[] { "state", "booked_in_at" });

            migrationBuilder.CreateIndex(
                name: "ix_method_versions_document_id_number",
                table: "method_versions",
                columns: new[] { "document_id", "number" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_methods_code",
                table: "methods",
                column: "code",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_methods_product_id",
                table: "methods",
                column: "product_id");

            migrationBuilder.CreateIndex(
                name: "email_index",
                table: "people",
                column: "normalized_email");

            migrationBuilder.CreateIndex(
                name: "user_name_index",
                table: "people",
                column: "normalized_user_name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_products_code",
                table: "products",
                column: "code",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_record_events_at",
                table: "record_events",
                column: "at");

            migrationBuilder.CreateIndex(
                name: "ix_record_events_hash",
                table: "record_events",
                column: "hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_record_events_subject_id",
                table: "record_events",
                column: "subject_id");

            migrationBuilder.CreateIndex(
                name: "ix_reviews_run_id",
                table: "reviews",
                column: "run_id");

            migrationBuilder.CreateIndex(
                name: "ix_run_sieves_sieve_id",
                table: "run_sieves",
                column: "sieve_id");

            migrationBuilder.CreateIndex(
                name: "ix_runs_balance_id",
                table: "runs",
                column: "balance_id");

            migrationBuilder.CreateIndex(
                name: "ix_runs_lot_id",
                table: "runs",
                column: "lot_id");

            migrationBuilder.CreateIndex(
                name: "ix_runs_method_version_id",
                table: "runs",
                column: "method_version_id");

            migrationBuilder.CreateIndex(
                name: "ix_runs_number",
                table: "runs",
                column: "number",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_runs_product_id_submitted_at",
                table: "runs",
                columns: new[] { "product_id", "submitted_at" });

            migrationBuilder.CreateIndex(
                name: "ix_runs_sample_id",
                table: "runs",
                column: "sample_id");

            migrationBuilder.CreateIndex(
                name: "ix_runs_state_planned_at",
                table: "runs",
                columns: new[] { "state", "planned_at" });

            migrationBuilder.CreateIndex(
                name: "ix_samples_code",
                table: "samples",
                column: "code",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_samples_lot_id",
                table: "samples",
                column: "lot_id");

            migrationBuilder.CreateIndex(
                name: "ix_samples_method_version_id",
                table: "samples",
                column: "method_version_id");

            migrationBuilder.CreateIndex(
                name: "ix_samples_specification_version_id",
                table: "samples",
                column: "specification_version_id");

            migrationBuilder.CreateIndex(
                name: "ix_sieving_intervals_run_id",
                table: "sieving_intervals",
                column: "run_id");

            migrationBuilder.CreateIndex(
                name: "ix_signatures_subject_id",
                table: "signatures",
                column: "subject_id");

            migrationBuilder.CreateIndex(
                name: "ix_specification_versions_document_id_number",
                table: "specification_versions",
                columns: new[] { "document_id", "number" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_specifications_code",
                table: "specifications",
                column: "code",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_specifications_customer_id",
                table: "specifications",
                column: "customer_id");

            migrationBuilder.CreateIndex(
                name: "ix_specifications_product_id",
                table: "specifications",
                column: "product_id");

            migrationBuilder.CreateIndex(
                name: "ix_test_sieves_aperture",
                table: "test_sieves",
                column: "aperture");

            migrationBuilder.CreateIndex(
                name: "ix_test_sieves_serial",
                table: "test_sieves",
                column: "serial",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_weighings_run_id",
                table: "weighings",
                column: "run_id");

            migrationBuilder.CreateIndex(
                name: "ix_weighings_supersedes_id",
                table: "weighings",
                column: "supersedes_id",
                unique: true);

            foreach (var (table, key) in ParticleLims.Laboratory.Storage.AppendOnlyTables.First)
            {
                AppendOnlyTriggers.Add(migrationBuilder, table, key);
            }
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "api_tokens");

            migrationBuilder.DropTable(
                name: "asp_net_user_claims");

            migrationBuilder.DropTable(
                name: "asp_net_user_logins");

            migrationBuilder.DropTable(
                name: "asp_net_user_tokens");

            migrationBuilder.DropTable(
                name: "balance_checks");

            migrationBuilder.DropTable(
                name: "certificate_files");

            migrationBuilder.DropTable(
                name: "concession_proposals");

            migrationBuilder.DropTable(
                name: "dispositions");

            migrationBuilder.DropTable(
                name: "equipment_events");

            migrationBuilder.DropTable(
                name: "evaluations");

            migrationBuilder.DropTable(
                name: "idempotency_keys");

            migrationBuilder.DropTable(
                name: "investigation_notes");

            migrationBuilder.DropTable(
                name: "laboratory_settings");

            migrationBuilder.DropTable(
                name: "limits");

            migrationBuilder.DropTable(
                name: "method_sieves");

            migrationBuilder.DropTable(
                name: "number_series");

            migrationBuilder.DropTable(
                name: "person_roles");

            migrationBuilder.DropTable(
                name: "record_events");

            migrationBuilder.DropTable(
                name: "reviews");

            migrationBuilder.DropTable(
                name: "run_sieves");

            migrationBuilder.DropTable(
                name: "samples");

            migrationBuilder.DropTable(
                name: "set_up_links");

            migrationBuilder.DropTable(
                name: "sieving_intervals");

            migrationBuilder.DropTable(
                name: "signatures");

            migrationBuilder.DropTable(
                name: "weighings");

            migrationBuilder.DropTable(
                name: "certificates");

            migrationBuilder.DropTable(
                name: "investigations");

            migrationBuilder.DropTable(
                name: "people");

            migrationBuilder.DropTable(
                name: "test_sieves");

            migrationBuilder.DropTable(
                name: "specification_versions");

            migrationBuilder.DropTable(
                name: "runs");

            migrationBuilder.DropTable(
                name: "specifications");

            migrationBuilder.DropTable(
                name: "balances");

            migrationBuilder.DropTable(
                name: "lots");

            migrationBuilder.DropTable(
                name: "method_versions");

            migrationBuilder.DropTable(
                name: "customers");

            migrationBuilder.DropTable(
                name: "methods");

            migrationBuilder.DropTable(
                name: "products");
        }
    }
}
