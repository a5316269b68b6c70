// What `bowlbook check` would say of a draft, errors first.

import { BOWL_CHECKS } from "./check_bowl.js";
import { HEAD_CHECKS } from "./check_heads.js";
import { WORD_CHECKS } from "./check_words.js";
import { isWhole } from "./draft.js";

/** The findings in a draft. While something that is weighed is open, only what is written is looked at. */
export function findingsIn(shelf, draft) {
  const checks = isWhole(draft) ? [...BOWL_CHECKS, ...HEAD_CHECKS, ...WORD_CHECKS] : WORD_CHECKS;
  const found = checks.flatMap((check) => check(shelf, draft));
  return [...found.filter(({ severity }) => severity === "error"), ...found.filter(({ severity }) => severity !== "error")];
}
