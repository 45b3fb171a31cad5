#include "plan/route/route_problem.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "plan/route/travel.hpp"
#include "quantity/ensure.hpp"

namespace cotter::plan {
namespace {

using geometry::Point3;
using quantity::Length;

/// Minutes of work (in hundredths) that the search weighs against millimetres of way; common practice, no source.
constexpr std::int64_t k_enlarge_cost_per_step = 300;

geometry::GridPoint grid(const Point3& point) {
  const auto rounded = [](Length length) {
    const std::int64_t n = length.base();
    return (n >= 0 ? n + 500'000 : n - 500'000) / 1'000'000;
  };
  return {rounded(point.x), rounded(point.y), rounded(point.z)};
}

Length largest(const quantity::Value& value) {
  return Length::from_base(value.range().high().base());
}
Length least(const quantity::Value& value) {
  return Length::from_base(value.range().low().base());
}

/// a, b, ... without i and o, which drawings avoid; then a2, b2, ...
std::string letter_of(std::size_t index) {
  static constexpr std::string_view k_letters = "abcdefghjklmnpqrstuvwxyz";
  std::string letter(1, k_letters[index % k_letters.size()]);
  const std::size_t round = index / k_letters.size();
  return round == 0 ? letter : letter + std::to_string(round + 1);
}

class Builder {
 public:
  Builder(const Assembly& assembly, const geometry::Skeleton& skeleton) : assembly_(assembly), skeleton_(skeleton) {
    out_.problem.name = assembly.job().sheet.id;
    out_.problem.rules.packing = engine::route::Packing::exact;
    out_.problem.rules.pull_permille = 500;
  }

  RouteProblem build() {
    for (const Seated& seated : assembly_.places())
      if (seated.part && !seated.part->pivots.empty()) take_pivot(seated, seated.part->pivots.front());
    for (const Seated& seated : assembly_.places())
      if (seated.part)
        for (const model::Cell& cell : seated.part->cells) add_cell(seated, cell);
    for (const Seated& seated : assembly_.places()) {
      if (!seated.part) continue;
      for (const model::Opening& opening : seated.part->openings) add_opening(seated, opening);
      for (const model::Passage& passage : seated.part->passages) add_passage(&seated, passage);
    }
    for (const model::Passage& passage : assembly_.bicycle().passages) add_passage(nullptr, passage);
    for (const model::TakenOpening& taken : assembly_.job().sheet.taken)
      if (const auto hole = hole_of(taken.opening))
        out_.problem.apertures[static_cast<std::size_t>(*hole)].taken = true;
    for (const model::Clearance& clearance : assembly_.clearances()) add_clearance(clearance);
    for (const model::LineWish& wish : assembly_.job().sheet.lines) add_line(wish);
    add_travel(out_);
    return std::move(out_);
  }

 private:
  struct KnownCell {
    int node = 0;
    const model::Cell* cell = nullptr;
  };

  /// Only frames have pivots, and a job has one frame.
  void take_pivot(const Seated& seated, const model::Pivot& pivot) {
    for (const std::string& cell : pivot.cells) turning_cells_.insert(seated.form->id + "." + cell);
    turning_points_ = {pivot.points.begin(), pivot.points.end()};
    RoutePivot out{seated.id, pivot.id, seated.form->label + ": " + pivot.label, {}, true};
    for (const quantity::Value* value : {&pivot.x, &pivot.y, &pivot.from, &pivot.to})
      out.attested = out.attested && quantity::is_attested(*value);
    out.travel = {quantity::nominal_length(pivot.x), quantity::nominal_length(pivot.y),
                  quantity::microdegrees(pivot.from.range().low().base()),
                  quantity::microdegrees(pivot.to.range().high().base())};
    out_.pivot = std::move(out);
  }

  /// A cell of a part, or one in the template's names.
  bool turns(const Seated* seated, const std::string& cell) const {
    return turning_cells_.contains(cell) ||
           (seated != nullptr && turning_cells_.contains(seated->form->id + "." + cell));
  }

  void add_cell(const Seated& seated, const model::Cell& cell) {
    cells_[seated.form->id + "." + cell.id] = {static_cast<int>(out_.problem.cells.size()), &cell};
    out_.problem.cells.push_back(seated.id + "." + cell.id);
  }

  const KnownCell* cell(const Seated* seated, const std::string& name) const {
    const auto dotted = cells_.find(name);
    if (dotted != cells_.end()) return &dotted->second;
    if (seated == nullptr) return nullptr;
    const auto own = cells_.find(seated->form->id + "." + name);
    return own == cells_.end() ? nullptr : &own->second;
  }

  /// The aperture made from an opening or passage that the job names.
  std::optional<int> hole_of(const std::string& job_name) const {
    const auto found = apertures_.find(assembly_.template_hole(job_name));
    return found == apertures_.end() ? std::nullopt : std::optional(found->second);
  }

  std::vector<int> holes_of(const std::vector<std::string>& job_names) const {
    std::vector<int> holes;
    for (const std::string& name : job_names)
      if (const auto hole = hole_of(name)) holes.push_back(*hole);
    return holes;
  }

  /// The room beside a shaft, at its least; nothing is asked while a size is unknown, since the joint of the two then
  /// is `measure` anyway.
  void add_clearance(const model::Clearance& clearance) {
    const auto known = cells_.find(clearance.cell);
    if (known == cells_.end()) return;
    engine::route::CellRule rule{known->second.node, {}, false};
    const auto inside = assembly_.value(clearance.inside), shaft = assembly_.value(clearance.shaft);
    if (inside && shaft && inside->value && shaft->value && inside->value->range_known && shaft->value->range_known)
      rule.room = std::max(Length{}, Length::from_base((least(*inside->value) - largest(*shaft->value)).base() / 2) -
                                         largest(clearance.keep));
    out_.problem.cell_rules.push_back(rule);
  }

  const geometry::Axis* axis(const KnownCell& cell) const {
    const auto found = skeleton_.tubes.find(cell.cell->tube);
    return found == skeleton_.tubes.end() ? nullptr : &found->second;
  }

  void add_opening(const Seated& seated, const model::Opening& opening) {
    const KnownCell* known = cell(&seated, opening.cell);
    quantity::ensure(known != nullptr, "opening on a cell that its part does not have");
    ApertureOrigin origin =
        origin_of(seated.id + "." + opening.id, seated.form->label + ": " + opening.label, opening.shape);
    origin.letter = letter_of(openings_++);
    origin.side = opening.side;
    origin.enlarge_most = opening.enlarge_paper.empty() ? 0 : opening.enlarge_most;
    origin.enlarge_paper = opening.enlarge_paper;
    origin.material = seated.part->material;
    origin.is_opening = true;
    origin.turns = turns(&seated, opening.cell);
    const geometry::Axis* tube = axis(*known);
    if (tube == nullptr) {
      out_.not_placed.push_back(origin.label);
      return;
    }
    const Length radius = Length::from_base(known->cell->outer_diameter.nominal / 2);
    origin.at = geometry::on_surface(*tube, opening.from == "end" ? geometry::End::end : geometry::End::start,
                                     quantity::nominal_length(opening.distance),
                                     geometry::side_from(opening.side).value_or(geometry::Side::end), radius);
    apertures_[seated.form->id + "." + opening.id] = static_cast<int>(out_.apertures.size());
    push(std::move(origin), known->node, engine::route::k_outside, opening.shared);
  }

  void add_passage(const Seated* seated, const model::Passage& passage) {
    const KnownCell* a = cell(seated, passage.a);
    const KnownCell* b = cell(seated, passage.b);
    const KnownCell* along = cell(seated, passage.tube);
    // A part that joins two places can be absent, an open seatpost for one: then the way through it does not exist.
    if (a == nullptr || b == nullptr || along == nullptr) return;
    const std::string prefix = seated == nullptr ? "" : seated->id + ".";
    ApertureOrigin origin = origin_of(prefix + passage.id, passage.label, passage.shape);
    origin.turns = turns(seated, passage.tube);
    const geometry::Axis* tube = axis(*along);
    if (tube == nullptr) {
      out_.not_placed.push_back(origin.label);
      return;
    }
    origin.at = geometry::at(*tube, passage.from == "end" ? geometry::End::end : geometry::End::start,
                             quantity::nominal_length(passage.distance));
    apertures_[(seated == nullptr ? "" : seated->form->id + ".") + passage.id] =
        static_cast<int>(out_.apertures.size());
    push(std::move(origin), a->node, b->node, passage.shared);
  }

  static ApertureOrigin origin_of(std::string id, std::string label, const model::ClearShape& shape) {
    ApertureOrigin origin;
    origin.id = std::move(id);
    origin.label = std::move(label);
    origin.shape = shape;
    return origin;
  }

  void push(ApertureOrigin origin, int a, int b, bool shared) {
    engine::route::Aperture aperture;
    aperture.id = origin.id;
    aperture.a = a;
    aperture.b = b;
    aperture.kind = shared ? engine::route::ApertureKind::shared : engine::route::ApertureKind::exclusive;
    const Length width = least(origin.shape.width);
    const bool oval = origin.shape.outline == model::ClearShape::Outline::oval;
    aperture.opening = {width, origin.shape.round() ? width : std::max(width, least(origin.shape.length)),
                        oval ? geometry::Shape::oval : geometry::Shape::slot};
    aperture.position = grid(origin.at);
    aperture.enlarge_max = static_cast<int>(origin.enlarge_most / engine::route::k_enlarge_step.base());
    aperture.enlarge_cost = k_enlarge_cost_per_step;
    out_.problem.apertures.push_back(std::move(aperture));
    out_.apertures.push_back(std::move(origin));
  }

  /// Index of the device in a place; empty when the place is open or has no seat whose point is known.
  std::optional<int> device(const std::string& place_name) {
    const auto known = devices_.find(place_name);
    if (known != devices_.end()) return known->second;
    const Seated* seated = assembly_.place(place_name);
    if (seated == nullptr || !seated->part) return std::nullopt;
    engine::route::Device out;
    out.id = seated->id;
    if (seated->part->device && seated->part->device->body) out.body = connector(*seated->part->device->body);
    const std::string chosen = chosen_seat(*seated);
    std::vector<Point3> exact;
    std::vector<bool> turning;
    for (const model::Seat& seat : assembly_.bicycle().seats)
      if (seat.place == place_name && (chosen.empty() || seat.id == chosen) && add_seat(seat, out, exact))
        turning.push_back(turning_points_.contains(seat.point) || turns(nullptr, seat.cell));
    if (out.seats.empty()) return std::nullopt;
    const int index = static_cast<int>(out_.problem.devices.size());
    devices_[place_name] = index;
    out_.problem.devices.push_back(std::move(out));
    out_.devices.push_back(seated->form->label);
    out_.seats.push_back(std::move(exact));
    out_.seat_turns.push_back(std::move(turning));
    return index;
  }

  std::string chosen_seat(const Seated& seated) const {
    for (const model::Place& place : assembly_.job().sheet.places)
      if (place.is == seated.form->id) return place.seat;
    return "";
  }

  /// False where the seat's point, hollow or opening is not there.
  bool add_seat(const model::Seat& seat, engine::route::Device& out, std::vector<Point3>& exact) const {
    const auto point = skeleton_.points.find(seat.point);
    if (point == skeleton_.points.end()) return false;
    engine::route::Seat engine_seat;
    if (seat.cell != "outside") {
      const KnownCell* known = cell(nullptr, seat.cell);
      if (known == nullptr) return false;
      engine_seat.node = known->node;
    }
    if (!seat.opening.empty()) {
      const auto aperture = apertures_.find(seat.opening);
      if (aperture == apertures_.end()) return false;
      engine_seat.aperture = aperture->second;
    }
    for (const std::string& entry : seat.entries)
      if (const auto aperture = apertures_.find(entry); aperture != apertures_.end())
        engine_seat.entries.push_back(aperture->second);
    const Point3 at{point->second.x + quantity::millimetres(seat.x), point->second.y + quantity::millimetres(seat.y),
                    point->second.z + quantity::millimetres(seat.z)};
    engine_seat.position = grid(at);
    engine_seat.cost = seat.cost;
    out.seats.push_back(engine_seat);
    exact.push_back(at);
    return true;
  }

  void add_line(const model::LineWish& wish) {
    const std::string number = "L" + std::to_string(++numbered_);
    const WishedLine wished = assembly_.line_of(wish);
    const std::array<std::string, 2> names{assembly_.template_name(wish.from_place),
                                           assembly_.template_name(wish.to_place)};
    engine::route::Line line;
    RouteLine row{&wish, wished.form, number, wished.label, "", ""};
    for (std::size_t end = 0; end < 2; ++end) {
      const Seated* seated = assembly_.place(names[end]);
      const std::string place_label = seated == nullptr ? names[end] : seated->form->label;
      (end == 0 ? row.from : row.to) = place_label;
      const std::optional<int> index = device(names[end]);
      if (!index || wished.form == nullptr) {
        out_.waiting.push_back(
            {wish.id, number, wished.label, seated == nullptr ? names[end] : seated->id, place_label});
        return;
      }
      line.ends[end] = {*index, connector(end == 0 ? wished.form->connector_a : wished.form->connector_b)};
    }
    fill_line(wish, *wished.form, line);
    if (wish.part.empty()) line.captive_end = 0;
    line.through = holes_of(wish.through);
    line.avoids = holes_of(wish.avoid);
    out_.problem.lines.push_back(std::move(line));
    out_.lines.push_back(std::move(row));
  }

  static void fill_line(const model::LineWish& wish, const model::LineForm& form, engine::route::Line& line) {
    line.id = wish.id;
    line.diameter = largest(form.diameter);
    for (engine::route::LineEnd& end : line.ends)
      end.connector.diameter = std::max(end.connector.diameter, line.diameter);
    for (const quantity::Value& length : form.lengths) line.lengths.push_back(least(length).base() / 1'000'000);
    line.cut_max = form.lengths.empty() ? least(form.longest).base() / 1'000'000 : 0;
    line.min_slack = wish.least_slack;
    line.max_stow = wish.most_stow;
    line.surface = static_cast<int>(wish.surfaces);
    line.bend_radius = (largest(form.bend_radius).base() + 999'999) / 1'000'000;
    line.bare_cable = form.bare;
  }

  static engine::route::Connector connector(const model::ClearShape& shape) {
    if (shape.round()) return {largest(shape.width), std::nullopt};
    const geometry::Rectangle section{largest(shape.width), largest(shape.length)};
    return {geometry::diagonal(section), section};
  }

  const Assembly& assembly_;
  const geometry::Skeleton& skeleton_;
  RouteProblem out_;
  std::map<std::string, KnownCell> cells_;
  std::map<std::string, int> apertures_;
  std::map<std::string, int> devices_;
  std::set<std::string> turning_cells_, turning_points_;
  std::size_t openings_ = 0;
  int numbered_ = 0;
};

}  // namespace

RouteProblem route_problem(const Assembly& assembly, const geometry::Skeleton& skeleton) {
  return Builder(assembly, skeleton).build();
}

}  // namespace cotter::plan
