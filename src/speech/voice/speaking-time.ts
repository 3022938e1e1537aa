/**
 * A generous guess of how long a voice takes for a text, in milliseconds: 150 words a minute, digits read one
 * by one, and a pause at each mark. It only decides when a voice is given up, so it errs on the long side.
 */
export function speakingTime(text: string, rate: number): number {
  const words = text.split(/[\s-]+/).filter((word) => /\p{L}/u.test(word)).length;
  const digits = text.replace(/\D/g, '').length;
  const pauses = (text.match(/[.,:;!?]/g) ?? []).length;
  return (words * 400 + digits * 450 + pauses * 350 + 300) / rate;
}
