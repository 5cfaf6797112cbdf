#include <QApplication>
#include <QCommandLineParser>
#include <QFileDialog>
#include <QFileInfo>
#include <QSettings>
#include <QStyleFactory>
#include <iostream>

#include "ui/desktop/window.h"

/// The desktop program: flitchbook [--book FILE]. Without a file it opens the book that was open
/// last, else asks for one. Exit 1: the book could not be opened; 2: wrong usage.
int main(int argc, char** argv) {
  using namespace flitch;
  QApplication app(argc, argv);
  QApplication::setApplicationName("flitchbook");
  QApplication::setOrganizationName("flitchbook");
  QApplication::setApplicationVersion("0.1.0");
  QApplication::setStyle(QStyleFactory::create("Fusion"));
  QApplication::setFont(desktop::typeface(13));

  QCommandLineParser parser;
  parser.setApplicationDescription("The book of a shop's hardwood: find boards, plan jobs.");
  parser.addHelpOption();
  parser.addVersionOption();
  const QCommandLineOption bookOption("book", "The book to open.", "FILE");
  parser.addOption(bookOption);
  if (!parser.parse(QApplication::arguments()) || !parser.positionalArguments().isEmpty()) {
    std::cerr << "flitchbook: "
              << (parser.errorText().isEmpty() ? "takes no argument but --book FILE"
                                               : parser.errorText().toStdString())
              << '\n';
    return 2;
  }
  if (parser.isSet("help")) parser.showHelp();
  if (parser.isSet("version")) parser.showVersion();

  QSettings settings;
  QString path = parser.value(bookOption);
  if (path.isEmpty()) path = settings.value("book").toString();
  if (path.isEmpty() || (!parser.isSet(bookOption) && !QFileInfo::exists(path))) {
    path = QFileDialog::getOpenFileName(nullptr, "Open book", QString(), "Book (*.flitch)");
    if (path.isEmpty()) return 0;
  }
  desktop::Look look;
  try {
    std::unique_ptr<desktop::Window> window = desktop::openWindow(path.toStdString(), look);
    settings.setValue("book", QFileInfo(path).absoluteFilePath());
    window->resize(1280, 720);
    window->setAttribute(Qt::WA_DeleteOnClose);
    window->show();
    static_cast<void>(window.release());  // closes, and goes, by itself
    return QApplication::exec();
  } catch (const std::runtime_error& error) {
    std::cerr << "flitchbook: " << error.what() << '\n';
    return 1;
  }
}
