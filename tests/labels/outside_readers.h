#pragma once
#include <QImage>
#include <QString>
#include <QStringList>
#include <string>
#include <vector>

namespace flitch::test {

/// Lines a program wrote to its standard output; fails the test when it could not be run.
[[nodiscard]] QStringList run(const QString& program, const QStringList& arguments);
/// What zbarimg, an independent reader, finds in a picture file: sorted "CODE-128:T0042F" and
/// "QR-Code:T0042F".
[[nodiscard]] QStringList zbar(const QString& picture);
/// What dmtxread, an independent reader, finds in a picture file: the texts of its Data Matrix
/// symbols.
[[nodiscard]] QStringList dmtx(const QString& picture);
/// Pages of a PDF rendered by poppler, black and white, at `dpi`.
[[nodiscard]] std::vector<QImage> renderPdf(const QString& pdf, int dpi);

}  // namespace flitch::test
