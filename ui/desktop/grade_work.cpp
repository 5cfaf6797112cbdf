#include "ui/desktop/grade_work.h"

namespace flitch::desktop {
namespace {

/// A fraction of a second at worst: "or better" is said where it does not reach.
constexpr CuttingEffort moment{100'000, 10'000};

}  // namespace

const desk::BoardGrade* GradeWork::known(const Board& board) const {
  const bool same = grade_ && board_.id == board.id && board_.defects == board.defects &&
                    board_.looked == board.looked && board_.outline == board.outline &&
                    board_.grade == board.grade;
  return same ? &*grade_ : nullptr;
}

void GradeWork::ask(const Board& board) {
  waiting_ = board;
  if (!busy_) begin();
}

void GradeWork::begin() {
  busy_ = true;
  worker_ = std::jthread([this, board = *std::exchange(waiting_, std::nullopt)] {
    const desk::BoardGrade grade = desk::gradeOf(board, moment);
    QMetaObject::invokeMethod(
        this, [this, board, grade] { take(board, grade); }, Qt::QueuedConnection);
  });
}

void GradeWork::take(const Board& board, const desk::BoardGrade& grade) {
  busy_ = false;
  board_ = board;
  grade_ = grade;
  if (waiting_) {
    begin();
  } else {
    emit answered();
  }
}

}  // namespace flitch::desktop
