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
        <table>
          <caption>{`${text.forThread}: ${thread.value.designation}`}</caption>
          <thead>
            <tr>
              <th>{text.tool}</th>
              <th>{text.standard}</th>
            </tr>
          </thead>
          <tbody>
            {sizes.map(({ standard, size: tool, sizeUnit, provenance }) => (
              <tr key={standard}>
                <td>{sizeUnit === null ? tool : `${tool} ${sizeUnit}`}</td>
                <td>{`${text.standards[standard]}${provenance === 'memory' ? ` (${text.memory})` : ''}`}</td>
              </tr>
            ))}
            {sizes.length === 0 ? (
              <tr>
                <td colSpan={2}>{text.none}</td>
              </tr>
            ) : null}
          </tbody>
        </table>
      ) : null}
      {isSize ? (
        <table>
          <caption>{`${text.forSize}: ${size}`}</caption>
          <thead>
            <tr>
              <th>{text.thread}</th>
              <th>{text.standard}</th>
            </tr>
          </thead>
          <tbody>
            {threads.map(({ diameter, standard }) => (
              <tr key={`${diameter} ${standard}`}>
                <td>{diameter}</td>
                <td>{text.standards[standard]}</td>
              </tr>
            ))}
            {threads.length === 0 ? (
              <tr>
                <td colSpan={2}>{text.none}</td>
              </tr>
            ) : null}
          </tbody>
        </table>
      ) : null}
    </Part>
  );
}

function threadsOf(size: string): ReturnType<typeof threadsForTool> {
  if (/^t/iu.test(size)) return threadsForTool('internal serration', size, null);
  const drives: readonly FastenerDrive[] = ['hex', 'socket-head hex'];
  return drives.flatMap((drive) => threadsForTool(drive, size, null));
}
