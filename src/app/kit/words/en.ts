/** The words of the kit list in English; every other language has the same shape. */
export const en = {
  title: 'Kit list',
  build: (id: string, name: string) => `Build ${id}: ${name}`,
  print: 'Print',
  wholeJob: 'For the whole job',
  from: (stage: string, step: string) => `${stage}, from step ${step}`,
  side: (title: string) => `If needed: ${title}`,
  steps: (numbers: string, count: number) => (count === 1 ? `step ${numbers}` : `steps ${numbers}`),
  single: 'single use',
  lacking: 'not among your tools',
  instead: (what: string) => `not among your tools; would serve: ${what}`,
  owned: 'among your tools',
  noCrib: 'Fill in “My tools”, and this list says which wrench to set to what, what you lack and what would serve instead.',
  complete: 'Everything that your tools can hold is there.',
  lacks: (count: number) => (count === 1 ? 'One thing is not among your tools.' : `${count} things are not among your tools.`),
  changes: (count: number) => `Tool changes in the written order: ${count}.`,
  fewer: (count: number, moved: string) => `${count} fewer if these steps, which are free to move, are taken elsewhere: ${moved}.`,
  order: (numbers: string) => `Suggested order: ${numbers}`,
  none: 'This procedure is not on this device.',
  loading: 'Making the list…',
};

export type KitWords = typeof en;
