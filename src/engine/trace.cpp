#include "sunstrain/trace.hpp"

#include "trace_hour.hpp"

namespace sunstrain {
namespace {

// The hand methods know one shadow at a time: a lasting one before one that moves.
HandCase hand_case_of(const internal::GoverningHour& hour, const Assessment& a) {
  const Job& job = a.bad_end;
  const EdgeDescription& edge = hour.pane.strengths[hour.lite];
  HandCase hand;
  for (std::size_t sheet = 0; sheet < hour.pane.sheets.size(); ++sheet) {  // plies together: they know lites alone
    if (hour.pane.sheets[sheet].ply == 0) hand.absorbed_w_m2.push_back(0.0);
    const FaceSources& sun = hour.loads.absorbed[sheet];
    hand.absorbed_w_m2.back() += sun.outer_face_w_m2 + sun.bulk_w_m2 + sun.inner_face_w_m2;
    if (sheet == hour.lite) hand.lite = hand.absorbed_w_m2.size() - 1;
  }
  hand.outdoor_k = hour.loads.outdoor_air_k;
  hand.room_k = hour.loads.room_air_k;
  hand.shadow = word_of(job, "shading.pattern").value_or("none");
  if (hand.shadow == "none" && hour.pane.shadow.any()) hand.shadow = "moving";
  hand.curtain = word_of(job, "inside.shade").value_or("none");
  hand.curtain_gap_m = hour.pane.room.shade.gap_m;
  hand.frame = word_of(job, "frame.kind").value_or("");
  hand.area_m2 = hour.pane.width_m * hour.pane.height_m;
  hand.treatment = edge.treatment;
  hand.glass_kind = edge.glass_kind;
  hand.thickness_m = edge.thickness_m;
  return hand;
}

// Where the methods and this engine part, by what this pane has.
std::vector<Saying> why_they_differ(const internal::GoverningHour& hour, const HandCase& hand) {
  std::vector<Saying> why{
      "The hand methods take the edge at a mean of outdoor and room air; here the frame's own temperature decides, and "
      "an edge in a light frame takes part of the middle's rise.",
      "They hold no heat and know no hour: a steady balance with fixed films, where here the day is followed in "
      "ten-minute steps with calm air."};
  if (hand.shadow != "none")
    why.push_back(
        "They multiply by one factor for a shadow, made for a shade as cold as the edge; here the shaded glass keeps "
        "its "
        "own temperature and the border lies where it falls.");
  if (hand.curtain != "none")
    why.push_back(
        "They multiply by one factor for a blind; here the blind sends sun back and warms the air behind the glass.");
  if (hour.pane.edge.sealed)
    why.push_back(
        "Their edge knows no spacer; here it joins the lites and cools the room-side edge with the outer lite.");
  why.push_back(
      "Their allowable stresses go with their own simple stresses and are higher than what is used here for stresses "
      "worked in full; mixing the two is too kind.");
  return why;
}

TraceStage stage(const char* name, const std::vector<internal::Figure>& figures, const Language& language) {
  TraceStage told_stage{name, {}};
  for (const internal::Figure& f : figures)
    told_stage.figures.push_back({said(f.what, language), f.value, f.unit, said(f.how, language)});
  return told_stage;
}

}  // namespace

Trace trace(const Job& job, const Reference& reference) {
  Trace t{assess(job, reference), 0, {}, {}, {}, {}, {}, {}};
  t.lite = t.assessment.governing_lite;
  t.governing = t.assessment.lites[t.lite].after;
  const internal::GoverningHour hour(t.assessment, reference);
  const Language& language = reference.language;
  t.stages = {stage("sun", internal::sun_figures(hour, reference), language),
              stage("optics", internal::optics_figures(hour), language),
              stage("heat", internal::heat_figures(hour, reference), language),
              stage("field", internal::field_figures(hour), language),
              stage("stress", internal::stress_figures(hour, reference), language),
              stage("plane", internal::plane_figures(hour, t.assessment, reference), language),
              stage("strength", internal::strength_figures(hour, t.assessment, reference), language),
              stage("cold water", internal::cold_water_figures(hour, reference), language)};
  std::erase_if(t.stages, [](const TraceStage& stage) { return stage.figures.empty(); });
  t.hand_case = hand_case_of(hour, t.assessment);
  t.by_hand = by_hand(t.hand_case, reference);
  t.limits = limits_used(hour.peak.stress_pa * t.assessment.raised_by(), hour.middle_k() - hour.edge_k(),
                         t.hand_case.treatment, t.hand_case.glass_kind, t.hand_case.thickness_m, reference);
  for (const Saying& why : why_they_differ(hour, t.hand_case)) t.why_differ.push_back(said(why, language));
  return t;
}

}  // namespace sunstrain
