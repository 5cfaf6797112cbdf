#include <QApplication>
#include <QStyleFactory>

#include "tests/run_catch.h"
#include "ui/desktop/look.h"

int main(int argc, char** argv) {
  if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
  QApplication app(argc, argv);
  QApplication::setStyle(QStyleFactory::create("Fusion"));
  QApplication::setFont(flitch::desktop::typeface(13));
  return flitch::runCatch(argc, argv);
}
