#include <QCoreApplication>
#include <QGuiApplication>
#include <QSysInfo>
#include <clocale>
#include <cstdio>
#include <cstdlib>
#include <iostream>
#include <memory>

#include "ui/cli/commands.h"

namespace {

using namespace flitch;

/// Qt's remarks (no runtime folder, no theme) are nothing to a maker: stderr is for reasons.
void onlyFaults(QtMsgType type, const QMessageLogContext& /*where*/, const QString& words) {
  if (type == QtCriticalMsg || type == QtFatalMsg) std::cerr << words.toStdString() << "\n";
}

/// Commands run where there is no display; fonts and images are all they need of Qt's Gui.
std::unique_ptr<QCoreApplication> application(bool gui, int& argc, char** argv) {
  qInstallMessageHandler(onlyFaults);
  if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
  std::unique_ptr<QCoreApplication> app;
  if (gui) {
    app = std::make_unique<QGuiApplication>(argc, argv);
  } else {
    app = std::make_unique<QCoreApplication>(argc, argv);
  }
  // Qt takes the user's locale over; figures in files are read and written the same everywhere.
  std::setlocale(LC_NUMERIC, "C");
  return app;
}

store::Hand handOf(const cli::Options& options) {
  std::string name = options.hand;
  for (const char* variable : {"USER", "LOGNAME"}) {
    if (name.empty()) name = qEnvironmentVariable(variable).toStdString();
  }
  if (name.empty()) name = "unnamed";
  return {name, QSysInfo::machineHostName().toStdString()};
}

int failed(const cli::Options& options, const Refusal& refusal) {
  if (options.json) std::cout << cli::refusalDocument(options.command, refusal) << std::flush;
  std::cerr << refusal.what() << "\n";
  return 1;
}

int runCommand(const cli::Options& options) {
  const cli::Session session{options.book, handOf(options), options.sure};
  try {
    const cli::Answer answer =
        std::visit([&](const auto& command) { return cli::run(command, session); }, options.what);
    for (const std::string& line : answer.warnings()) std::cerr << line << "\n";
    std::cout << (options.json ? answer.document(options.command) : answer.text()) << std::flush;
    if (!std::cout) {
      std::cerr << "the answer could not be written to standard output\n";
      return 1;
    }
    return answer.exitCode;
  } catch (const Refusal& refusal) {
    return failed(options, refusal);
  } catch (const store::StoreError& error) {
    std::cerr << error.detail() << "\n";
    return failed(options, Refusal("store", Complaint{"", error.what(), options.book, ""}));
  } catch (const std::exception& error) {
    return failed(
        options,
        Refusal("fault",
                Complaint{"", std::string("a fault of this program: ") + error.what(), "", ""}));
  }
}

}  // namespace

int main(int argc, char** argv) {
  const std::variant<cli::Options, cli::Said> parsed =
      cli::parse(std::vector<std::string>(argv + 1, argv + argc));
  if (const auto* said = std::get_if<cli::Said>(&parsed)) {
    (said->exitCode == 0 ? std::cout : std::cerr) << said->text << std::flush;
    return said->exitCode;
  }
  const cli::Options& options = std::get<cli::Options>(parsed);
  // Qt sees the program's name alone: all other arguments are ours.
  int qtArgc = 1;
  const auto app = application(cli::paints(options.what), qtArgc, argv);
  return runCommand(options);
}
