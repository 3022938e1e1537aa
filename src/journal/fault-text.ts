import type { LogFault } from './log-file.ts';

/** What is wrong with a record, in one line: "line 9: event 8 was changed". */
export function faultText(fault: LogFault): string {
  const what = faultWords(fault);
  return fault.line === 0 ? what : `line ${fault.line}: ${what}`;
}

function faultWords(fault: LogFault): string {
  switch (fault.code) {
    case 'unreadable':
      return fault.why === 'newer-version'
        ? 'written by a newer version of Undertray; kept, not understood'
        : `cannot be read${fault.path === '' ? '' : ` at ${fault.path}`}: expected ${fault.expected}`;
    case 'changed':
      return `event ${fault.seq} was changed: its hash does not fit`;
    case 'rewritten':
      return `event ${fault.seq} was written anew by something else: same contents, another spelling`;
    case 'missing':
      return fault.from === fault.to
        ? `event ${fault.from} is missing before this line`
        : `events ${fault.from} to ${fault.to} are missing before this line`;
    case 'out-of-order':
      return `event ${fault.seq} is out of order`;
    case 'repeated':
      return `event ${fault.seq} is here a second time`;
    case 'forked':
      return `another event under number ${fault.seq}, which is taken`;
    case 'unlinked':
      return `event ${fault.seq} is not chained to the event before it: that one was replaced`;
    case 'other-job':
      return `event ${fault.seq} belongs to another job (${fault.job})`;
    case 'header-missing':
      return 'events without the header line of their job';
    case 'header-unreadable':
      return `the header cannot be read${fault.path === '' ? '' : ` at ${fault.path}`}: expected ${fault.expected}`;
    case 'header-changed':
      return 'the header was changed: its hash does not fit';
    case 'header-rewritten':
      return 'the header was written anew by something else: same contents, another spelling';
    case 'ends-early':
      return `the end is missing or another one: the header promises ${fault.promised} events, ${fault.found} can be read`;
    case 'other-plan':
      return 'the plan in the header is not the one that the job was opened with';
  }
}
