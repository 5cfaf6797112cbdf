#pragma once
#include <optional>

#include "ui/desktop/controls.h"
#include "ui/desktop/place.h"
#include "ui/desktop/session.h"
#include "ui/desktop/sheet_table.h"
#include "ui/desktop/table_model.h"

namespace flitch::desktop {

/// A delivery that is in the book: its boards and where they are, what is wrong with it, and the
/// boards sent back to its supplier with the credit that is expected and that came.
class LoadView : public QWidget {
  Q_OBJECT
 public:
  LoadView(Session& session, const Look& look, const Actions& actions, QWidget* parent);
  void setLoad(DeliveryId delivery);
  [[nodiscard]] DeliveryId load() const { return delivery_; }
  [[nodiscard]] QString title() const { return q(boards_.table().title); }
  [[nodiscard]] std::size_t boards() const { return boards_.table().rows.size(); }
  [[nodiscard]] const Table& claim() const { return claims_.table(); }
  /// The board chosen in its list, if any.
  [[nodiscard]] std::optional<Board> chosen() const;
  /// Sends the chosen board back with what stands in the fields; of one sent back already, takes
  /// the credit that came.
  void returnBoard();
  /// The claim with its photos as PDF, or its rows as CSV where the path ends so.
  void writeClaim(const QString& path);

 signals:
  void said(const QString& sentence, bool trouble);
  void leaveWanted();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void lay();
  void chosenChanged();
  [[nodiscard]] bool sentBack() const;

  Session& session_;
  const Look& look_;
  DeliveryId delivery_;
  TableModel boards_, claims_;
  SheetTable boardTable_, claimTable_;
  Field reason_, credit_;
  Button return_, claim_;
};

}  // namespace flitch::desktop
