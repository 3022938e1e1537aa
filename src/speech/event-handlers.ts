/** An event handler attribute as HTML defines it: one callable or nothing. */
export type EventHandler<E extends Event = Event> = ((event: E) => unknown) | null;

interface Slot {
  handler: (event: Event) => unknown;
  readonly listener: (event: Event) => void;
}

const slots = new WeakMap<EventTarget, Map<string, Slot>>();

/**
 * Gives a class the attributes `onstart`, `onend` and so on. As in HTML, the handler takes its place among
 * the listeners when it is first set, keeps it when replaced, and loses it when set to null.
 */
export function defineEventHandlers(prototype: EventTarget, types: readonly string[]): void {
  for (const type of types) {
    Object.defineProperty(prototype, `on${type}`, {
      configurable: true,
      enumerable: true,
      get(this: EventTarget) {
        return slots.get(this)?.get(type)?.handler ?? null;
      },
      set(this: EventTarget, value: unknown) {
        setHandler(this, type, typeof value === 'function' ? (value as (event: Event) => unknown) : null);
      },
    });
  }
}

function setHandler(target: EventTarget, type: string, handler: ((event: Event) => unknown) | null): void {
  const own = slots.get(target) ?? new Map<string, Slot>();
  slots.set(target, own);
  const slot = own.get(type);
  if (handler === null) {
    if (slot) target.removeEventListener(type, slot.listener);
    own.delete(type);
  } else if (slot) {
    slot.handler = handler;
  } else {
    const added: Slot = { handler, listener: (event) => void added.handler.call(target, event) };
    own.set(type, added);
    target.addEventListener(type, added.listener);
  }
}

/** Sets the time that an event stands for, which may lie before it was dispatched. */
export function stampEvent<E extends Event>(event: E, milliseconds: number): E {
  Object.defineProperty(event, 'timeStamp', { value: milliseconds, enumerable: true });
  return event;
}
