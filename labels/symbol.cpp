#include "labels/symbol.h"

#include <ZXing/BarcodeFormat.h>
#include <ZXing/BitMatrix.h>
#include <ZXing/MultiFormatWriter.h>

#include <algorithm>
#include <stdexcept>

namespace flitch::pages {
namespace {

Modules modulesOf(const ZXing::BitMatrix& matrix, int rows) {
  Modules modules{matrix.width(), rows, {}};
  modules.dark.reserve(static_cast<std::size_t>(modules.columns * rows));
  for (int row = 0; row < rows; ++row)
    for (int column = 0; column < modules.columns; ++column)
      modules.dark.push_back(matrix.get(column, row));
  return modules;
}

}  // namespace

Modules code128(const std::string& text) {
  const auto ascii = [](char c) { return static_cast<unsigned char>(c) < 128; };
  if (text.empty() || text.size() > 80 || !std::all_of(text.begin(), text.end(), ascii))
    throw std::invalid_argument("Code 128 holds 1 to 80 ASCII characters");
  ZXing::MultiFormatWriter writer(ZXing::BarcodeFormat::Code128);
  return modulesOf(writer.setMargin(0).encode(text, 0, 0), 1);
}

Modules qr(const std::string& text) {
  if (text.empty()) throw std::invalid_argument("a QR symbol holds at least one character");
  ZXing::MultiFormatWriter writer(ZXing::BarcodeFormat::QRCode);
  // The writer takes levels 0 to 8; 5 and 6 are Q, about 25 % of codewords (ISO/IEC 18004).
  writer.setMargin(0).setEccLevel(5).setEncoding(ZXing::CharacterSet::UTF8);
  const ZXing::BitMatrix matrix = writer.encode(text, 0, 0);
  return modulesOf(matrix, matrix.height());
}

Modules dataMatrix(const std::string& text) {
  if (text.empty()) throw std::invalid_argument("a Data Matrix holds at least one character");
  ZXing::MultiFormatWriter writer(ZXing::BarcodeFormat::DataMatrix);
  const ZXing::BitMatrix matrix = writer.setMargin(0).encode(text, 0, 0);
  return modulesOf(matrix, matrix.height());
}

}  // namespace flitch::pages
