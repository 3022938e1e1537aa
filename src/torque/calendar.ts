/** Whether the text is a day of the calendar in ISO form, such as "2026-02-28". */
export function isIsoDate(text: string): boolean {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/u.exec(text);
  if (!match) return false;
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  return year >= 1900 && day >= 1 && day <= daysInMonth(year, month);
}

/** The same day so many months on, or the last day of a shorter month. ISO dates compare as text. */
export function addMonths(date: string, months: number): string {
  const [year = 0, month = 1, day = 1] = date.split('-').map(Number);
  const count = year * 12 + (month - 1) + months;
  const [newYear, newMonth] = [Math.floor(count / 12), (count % 12) + 1];
  const newDay = Math.min(day, daysInMonth(newYear, newMonth));
  return `${String(newYear).padStart(4, '0')}-${String(newMonth).padStart(2, '0')}-${String(newDay).padStart(2, '0')}`;
}

/** None in a month that the year does not have. */
function daysInMonth(year: number, month: number): number {
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  return [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1] ?? 0;
}
