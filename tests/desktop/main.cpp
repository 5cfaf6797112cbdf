#define CATCH_CONFIG_RUNNER
#include <QApplication>
#include <QStyleFactory>
#include <catch2/catch.hpp>

#include "ui/desktop/look.h"

int main(int argc, char** argv) {
  if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
  QApplication app(argc, argv);
  QApplication::setStyle(QStyleFactory::create("Fusion"));
  QApplication::setFont(flitch::desktop::typeface(13));
  return Catch::Session().run(argc, argv);
}
