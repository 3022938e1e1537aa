/**
 * How a spoken question begins, in every language that notes are spoken in: recognisers write no question marks. "Question" first makes anything
 * one. Words that begin statements as often ("when it turns, it grinds", "what a mess") are left out.
 */
const openings =
  /^(?:question|why|which|how|is|are|does|do i|do we|should|may i|can i|pourquoi|comment|combien|quel(?:le)?s?|est-ce|faut-il|dois-je|puis-je)(?![\p{L}\p{N}-])/iu;

/** Whether a note asks something, so that it must be answered before the job can be signed. */
export const isAsking = (text: string): boolean => text.trimEnd().endsWith('?') || openings.test(text.trimStart());
