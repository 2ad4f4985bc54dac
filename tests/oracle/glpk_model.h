// A linear or mixed-integer problem for GLPK, and the pacing rules put to it as they are worded: a
// step that stays has a time of its own, of at least so much, and the times add up to no more than
// there is.
#pragma once

#include <glpk.h>

#include <algorithm>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

#include "core/pacing.h"

namespace trowelbell {

// Columns and rows count from 1, as GLPK's do.
class Model {
 public:
  using Terms = std::vector<std::pair<int, double>>;  // column, factor

  // `direction`: GLP_MIN or GLP_MAX.
  explicit Model(int direction, bool presolve = true)
      : problem_(glp_create_prob(), glp_delete_prob) {
    glp_term_out(GLP_OFF);
    glp_set_obj_dir(problem_.get(), direction);
    glp_init_iocp(&whole_);
    glp_init_smcp(&linear_);
    whole_.presolve = linear_.presolve = presolve ? GLP_ON : GLP_OFF;
  }

  // `kind`: GLP_CV, or GLP_IV for whole values.
  int add_column(double low, double high, double objective, int kind = GLP_CV) {
    const int column = glp_add_cols(problem_.get(), 1);
    glp_set_col_kind(problem_.get(), column, kind);
    glp_set_col_bnds(problem_.get(), column, low < high ? GLP_DB : GLP_FX, low, high);
    glp_set_obj_coef(problem_.get(), column, objective);
    return column;
  }
  void at_least(const Terms& terms, double low) { add_row(terms, GLP_LO, low); }
  void at_most(const Terms& terms, double high) { add_row(terms, GLP_UP, high); }

  // By branch and bound, or by simplex. False where no optimum was found.
  bool solve_whole() {
    if (whole_.presolve == GLP_OFF && !solve()) return false;  // it starts from there
    whole_solved_ =
        glp_intopt(problem_.get(), &whole_) == 0 && glp_mip_status(problem_.get()) == GLP_OPT;
    return whole_solved_;
  }
  bool solve() {
    return glp_simplex(problem_.get(), &linear_) == 0 && glp_get_status(problem_.get()) == GLP_OPT;
  }
  double value(int column) const {
    return whole_solved_ ? glp_mip_col_val(problem_.get(), column)
                         : glp_get_col_prim(problem_.get(), column);
  }
  double objective() const {
    return whole_solved_ ? glp_mip_obj_val(problem_.get()) : glp_get_obj_val(problem_.get());
  }

 private:
  void add_row(const Terms& terms, int kind, double bound) {
    std::vector<int> columns(1);
    std::vector<double> factors(1);
    for (const auto& [column, factor] : terms) {
      columns.push_back(column);
      factors.push_back(factor);
    }
    const int row = glp_add_rows(problem_.get(), 1);
    glp_set_row_bnds(problem_.get(), row, kind, bound, bound);
    glp_set_mat_row(problem_.get(), row, static_cast<int>(terms.size()), columns.data(),
                    factors.data());
  }

  std::unique_ptr<glp_prob, void (*)(glp_prob*)> problem_;
  glp_iocp whole_;
  glp_smcp linear_;
  bool whole_solved_ = false;
};

// Whether pacing may choose about the step.
inline bool optional(const PaceItem& item, Keep keep) {
  return item.choice == Choice::automatic && item.keep == keep;
}
inline std::vector<bool> musts(const std::vector<PaceItem>& items) {
  std::vector<bool> kept;
  kept.reserve(items.size());
  for (const PaceItem& item : items)
    kept.push_back(optional(item, Keep::must) || item.choice == Choice::keep);
  return kept;
}
inline std::vector<std::int64_t> shortest_hundredths(const std::vector<PaceItem>& items) {
  std::vector<std::int64_t> times;
  times.reserve(items.size());
  for (const PaceItem& item : items) times.push_back(100 * item.seconds.min);
  return times;
}
inline std::vector<std::int64_t> comfortable_hundredths(const std::vector<PaceItem>& items,
                                                        std::int64_t percent) {
  std::vector<std::int64_t> times;
  times.reserve(items.size());
  for (const PaceItem& item : items) {
    times.push_back(
        std::clamp(percent * item.seconds.plan, 100 * item.seconds.min, 100 * item.seconds.max));
  }
  return times;
}

// The steps `kept` and with them the `keep` steps of highest worth, where each has at least its
// `least` hundredths of a second out of `available` seconds; nothing where not even those kept
// have.
inline std::optional<std::vector<bool>> best_steps(const std::vector<PaceItem>& items,
                                                   std::vector<bool> kept, Keep keep,
                                                   std::int64_t available,
                                                   const std::vector<std::int64_t>& least,
                                                   bool presolve = true) {
  Model model(GLP_MAX, presolve);
  std::vector<int> stays(items.size());
  Model::Terms all_times;
  for (std::size_t i = 0; i < items.size(); ++i) {
    const bool open = !kept[i] && optional(items[i], keep);
    if (!kept[i] && !open) continue;
    stays[i] = model.add_column(kept[i] ? 1 : 0, 1, open ? static_cast<double>(items[i].worth) : 0,
                                open ? GLP_IV : GLP_CV);
    const int time = model.add_column(0, static_cast<double>(100 * items[i].seconds.max + 1), 0);
    model.at_least({{time, 1}, {stays[i], -static_cast<double>(least[i])}}, 0);
    all_times.emplace_back(time, 1);
  }
  if (all_times.empty()) return kept;
  model.at_most(all_times, static_cast<double>(available * 100));
  if (!model.solve_whole()) return std::nullopt;
  for (std::size_t i = 0; i < items.size(); ++i)
    kept[i] = stays[i] != 0 && model.value(stays[i]) > 0.5;
  return kept;
}

}  // namespace trowelbell
