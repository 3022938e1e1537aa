import { plain, sentenceOf, stripOpening } from './remarks.ts';
import type { SaidSentence } from './sentences.ts';

const subjects =
  /^(?:(?:what )?(?:you|we|i)(?:'re|'ll|'ve|'d| are| will| have| would)? ?(?:(?:just|also|then|always|usually|now|really|kinda|probably|want|wanna|need|have|got|gotta|going|gonna|can|should|must|like|do|is|to|try|go ahead and|go ahead,?) ?)*|let's (?:go ahead and )?|let me (?:go ahead and )?|go ahead and |the first thing (?:we're|you're) (?:gonna|going to) do is |please |just )/i;

const actions =
  /^(?:put|get|take|bring|lift|raise|lower|slide|push|pull|tighten|torque|retorque|run|start|line|fit|install|hang|bolt|screw|thread|snug|hold|turn|spin|set|clean|wipe|undo|loosen|crack|back|bleed|fill|drain|top|bounce|spray|grease|oil|smear|plug|connect|disconnect|hook|clip|snap|pop|tap|knock|drop|remove|replace|draw|seat|align|jack|support|chock|strap|guide|steady|swing|rotate|press|squeeze|bend|route|tuck|wrap|cut|apply|coat|feed|ease|roll|move|engage|pump|open|close|mark|measure|swap|reconnect|refit|position|stake|work|check|dump|let|leave|make|use|add|pour|charge|zip|go)\b/i;

/**
 * What the sentence tells somebody to do, as an order: "so you're gonna wanna slide it back over the dowels" becomes
 * "Slide it back over the dowels." Null where it tells nobody to do anything.
 */
export function orderOf(sentence: SaidSentence): string | null {
  const text = stripOpening(plain(sentence.text));
  const bare = stripOpening(text.replace(subjects, ''));
  if (!actions.test(bare)) return null;
  // "Go for a drive", "let me see": talk, not work.
  if (
    /^(?:go (?:get|watch|over that|through)|let me|let's|get (?:started|into)|make sure|check that|take a look|put up with|work(?:ed|s)|use(?:s|d)|leave a comment|set(?:s)? )\b/i.test(
      bare,
    )
  )
    return null;
  return sentenceOf(bare);
}
