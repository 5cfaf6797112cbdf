#include "inventory/store/delivery_rows.h"

#include "inventory/store/board_rows.h"

namespace flitch::store {

namespace {

void insertInvoice(Database& database, DeliveryId id, const DeliveryDraft& draft) {
  int line = 0;
  for (const InvoiceLine& extra : draft.extras) {
    database.run(
        "INSERT INTO invoice_lines (delivery, line, kind, amount, spread, note) "
        "VALUES (?, ?, ?, ?, ?, ?)",
        id, ++line, extra.kind, extra.amount, extra.spread, extra.note);
  }
  line = 0;
  for (const InvoiceClaim& claim : draft.claims) {
    const bool whole = claim.species.empty();
    if (!whole) {
      database.run("INSERT INTO species (name) VALUES (?) ON CONFLICT DO NOTHING", claim.species);
    }
    database.run(
        "INSERT INTO invoice_claims (delivery, line, species, nominal, nominal_in, feet, amount) "
        "VALUES (?, ?, ?, ?, ?, ?, ?)",
        id, ++line, whole ? std::nullopt : std::optional(claim.species),
        whole ? std::nullopt : std::optional(claim.nominal.value()),
        whole ? std::nullopt : std::optional(nominalCode(claim.nominal)), claim.feet, claim.amount);
  }
}

}  // namespace

DeliveryId insertDelivery(Database& database, const DeliveryDraft& draft, EntryId entry) {
  database.run(
      "INSERT INTO suppliers (name, rule) VALUES (?, ?) "
      "ON CONFLICT (name) DO UPDATE SET rule = excluded.rule",
      draft.supplier, draft.rule);
  const DeliveryId id{nextNumber(database, "delivery")};
  database.run(
      "INSERT INTO deliveries (id, supplier, reference, received_on, rule, version) "
      "VALUES (?, ?, ?, ?, ?, ?)",
      id, draft.supplier, draft.reference, draft.receivedOn, draft.rule, entry);
  insertInvoice(database, id, draft);
  return id;
}

std::optional<DeliveryDraft> readDelivery(Database& database, DeliveryId id) {
  std::optional<DeliveryDraft> draft;
  database.each(
      "SELECT supplier, reference, received_on, rule FROM deliveries "
      "WHERE id = ? AND withdrawn = 0",
      [&](Row& row) {
        draft.emplace();
        row >> draft->supplier >> draft->reference >> draft->receivedOn >> draft->rule;
      },
      id);
  if (!draft) return draft;
  database.each(
      "SELECT line, kind, amount, spread, note FROM invoice_lines WHERE delivery = ? ORDER BY line",
      [&](Row& row) {
        InvoiceLine& extra = draft->extras.emplace_back();
        row >> extra.line >> extra.kind >> extra.amount >> extra.spread >> extra.note;
      },
      id);
  database.each(
      "SELECT line, species, nominal, nominal_in, feet, amount FROM invoice_claims "
      "WHERE delivery = ? ORDER BY line",
      [&](Row& row) {
        InvoiceClaim& claim = draft->claims.emplace_back();
        row >> claim.line >> claim.species;
        const auto nominal = row.next<int>();
        claim.nominal = nominalOf(nominal, row.next<std::string>());
        row >> claim.feet >> claim.amount;
      },
      id);
  return draft;
}

}  // namespace flitch::store
