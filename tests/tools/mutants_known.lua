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
}
