#include <QCoreApplication>

#include "tests/run_catch.h"

// Qt finds its database plugins through the application.
int main(int argc, char** argv) {
  const QCoreApplication app(argc, argv);
  return flitch::runCatch(argc, argv);
}
