/** The words of the tools page beyond the shared ones, in English; every other language has the same shape. */
export const en = {
  empty: 'Nothing is filled in yet. Until something is, each job lists what it needs without knowing what you own.',
  begin: [
    'Begin with your torque wrenches: the range and the step are on the shaft, the date on the calibration slip.',
    'Then add the sockets and bits that you would lay out.',
  ],
  example: 'A wrench marked 40–200 N·m with a line every 1 N·m has the lowest mark 40, the highest 200 and the graduation 1.',
  removed: (what: string) => `Removed: ${what}.`,
  tookIn: (file: string) => `${file} has taken the place of what was filled in here.`,
  takeBack: 'Take that back',
  notTaken: (file: string) => `${file} was not taken in. Nothing is changed.`,
  at: (drawer: string, number: number, field: string) => `${drawer}, number ${number}, ${field}`,
  problem: (where: string, fault: string) => (where === '' ? fault : `${where}: ${fault}`),
  clicks: (counted: number, total: number, limit: number) =>
    `${counted} clicks counted from jobs on this device since its calibration, ${total} in all; due at ${limit}.`,
  due: (date: string) => `Calibration is due on ${date}.`,
  calibratedToday: 'Calibrated today',
  rules: 'Rules',
  rulesAbout: 'When to warn. The limits of the square drives are from memory, no standard’s: set your own. Empty means no limit.',
  calibrationMonths: 'Months between calibrations',
  calibrationOperations: 'Clicks between calibrations',
  usableFrom: 'Usable from, % of the highest mark',
  squareLimit: (square: string) => `Most for a ${square} square, N·m`,
};

export type ToolsWords = typeof en;
