import { useState } from 'react';
import { sizeInMillimetres, threadsForTool, toolSizes } from '../../torque/sockets.ts';
import type { FastenerDrive } from '../../torque/sockets.ts';
import { parseThread } from '../../torque/threads.ts';
import { Part, TextField } from './fields.tsx';
import { useCalculatorWords } from './words/words.ts';

/** Which socket, key or bit goes with a thread by the standards, and the other way round. */
export function SocketPart() {
  const words = useCalculatorWords();
  const text = words.socket;
  const [threadTyped, setThread] = useState('M10');
  const [sizeTyped, setSize] = useState('13');
  const thread = parseThread(threadTyped);
  const sizes = thread.ok ? toolSizes(thread.value) : [];
  const size = sizeTyped.trim();
  const isSize = /^t\d{1,3}$/iu.test(size) || (sizeInMillimetres(size, null) ?? 0) > 0;
  const threads = isSize ? threadsOf(size) : [];
  return (
    <Part
      id="socket"
      title={text.title}
      asked={
        <>
          <TextField label={text.thread} value={threadTyped} onChange={setThread} expected={thread.ok ? null : words.expected.thread} />
          <TextField label={text.size} value={sizeTyped} onChange={setSize} expected={isSize ? null : text.sizeExpected} />
        </>
      }
    >
      {thread.ok ? (
        <FoundTable
          caption={`${text.forThread}: ${thread.value.designation}`}
          head={text.tool}
          found={sizes.map(({ standard, size: tool, sizeUnit, provenance }) => [
            sizeUnit === null ? tool : `${tool} ${sizeUnit}`,
            `${text.standards[standard]}${provenance === 'memory' ? ` (${text.memory})` : ''}`,
          ])}
        />
      ) : null}
      {isSize ? (
        <FoundTable
          caption={`${text.forSize}: ${size}`}
          head={text.thread}
          found={threads.map(({ diameter, standard }) => [diameter, text.standards[standard]])}
        />
      ) : null}
    </Part>
  );
}

/** What the standards say, each with its standard, or that they say nothing. */
function FoundTable({
  caption,
  head,
  found,
}: {
  readonly caption: string;
  readonly head: string;
  readonly found: readonly (readonly [what: string, standard: string])[];
}) {
  const text = useCalculatorWords().socket;
  return (
    <table>
      <caption>{caption}</caption>
      <thead>
        <tr>
          <th>{head}</th>
          <th>{text.standard}</th>
        </tr>
      </thead>
      <tbody>
        {found.map(([what, standard]) => (
          <tr key={`${what} ${standard}`}>
            <td>{what}</td>
            <td>{standard}</td>
          </tr>
        ))}
        {found.length === 0 ? (
          <tr>
            <td colSpan={2}>{text.none}</td>
          </tr>
        ) : null}
      </tbody>
    </table>
  );
}

function threadsOf(size: string): ReturnType<typeof threadsForTool> {
  if (/^t/iu.test(size)) return threadsForTool('internal serration', size, null);
  const drives: readonly FastenerDrive[] = ['hex', 'socket-head hex'];
  return drives.flatMap((drive) => threadsForTool(drive, size, null));
}
