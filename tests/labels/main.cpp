#include <QGuiApplication>

#include "tests/run_catch.h"

int main(int argc, char* argv[]) {
  qputenv("QT_QPA_PLATFORM", "offscreen");
  const QGuiApplication application(argc, argv);
  return flitch::runCatch(argc, argv);
}
