-- SPDX-License-Identifier: MIT
-- mutants_known: changes that no test can notice, because nobody could see them: the
-- file, a piece of the line, what it is replaced by, why that changes nothing.  old =
-- says which of several places of the line is meant.
return {
  { "bed/chance.c", "0.5) / 9007199254740992.0", "0.505", "moves a random number by 2^-60: no figure shows it" },
  { "study/generate.c", "double x = normal(d), v = 1 + c * x", " - ", "a normal number is as likely as its negative" },
  { "study/block.c", "double to = (c + 1)", " - ", "a margin of 1e-9, where both neighbours give one level" },
  { "study/block.c", "double to = (c + 1)", " / ", "a margin of 1e-9, where both neighbours give one level" },
  { "study/block.c", "double to = (c + 1)", " * ", "more steps of a search, to the same piece" },
  { "bed/treatment.c", "tarn_areal_rate(t->k_per_day, t->depth_m", "t->depth_m, t->k_per_day", "two factors of a product, of one range" },
  { "weather/stamps.c", "char shown[24]", "25", "one byte of room more" },
  { "base/json.c", "while (at < p->end && *at != '\"')", " <= ", "one byte of room more; a read behind the text, which make check sees" },
  { "base/json.c", "memcpy(text, copy, n + 1)", "2", "a byte behind the zero, which nobody reads" },
  { "base/read_many.c", "i < 12", "13", "a write behind twelve months, which make check sees" },
  { "base/rows.c", "status = s;", ";", "an allocation fails: make faults" },
  { "base/rows.c", "for (int k = 0; k < tn_rows_count(row, object)", "1", "memory that is not freed, which make check sees" },
  { "leak/predict.c", "tarn_resize(alloc, room, 0)", ";", "memory that is not freed, which make check sees" },
  { "flow/closure.c", "open > before / 2", " * ", "more rounds of an iteration that has ended, to the same flow" },
  { "flow/closure.c", "i < 20 && open > rounding", " >= ", "one round more at a rest of exactly the rounding" },
  { "flow/closure.c", "tn_flow_pump_slope(p, flow), -1e-9", "", "the slope of a level curve, which only starts the iteration" },
  { "bed/loop.c", "if (fast * t < 1e-4)", " <= ", "two forms of one function, equal to rounding where they meet" },
  { "bed/treatment.c", "i < 200 && hi - lo", " + ", "more rounds of a search by halves, to the same area" },
  { "bed/chance.c", "sd / (n * (1 - n)) * z", " - ", "a normal number is as likely as its negative", old = " + " },
  { "bed/chance.c", "solids_g *= load", ";", "no figure of a chance depends on the solids" },
  { "bed/chance.c", "solids_g *= load", " /= ", "no figure of a chance depends on the solids" },
  { "flow/group.c", "if (head < first_head", " <= ", "at its first head a pump gives none" },
  { "evaporation/day.c", "tarn_wind_function(TARN_WIND_1956, u, 0)", "1", "an area that this wind function does not look at" },
}
