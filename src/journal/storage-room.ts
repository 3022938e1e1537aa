/** The part of the Storage API that is used (WHATWG); `navigator.storage` in the browser, absent outside a secure context. */
export type StorageRoom = Pick<StorageManager, 'estimate' | 'persist' | 'persisted'>;

/** The browser's word on room and persistence; undefined outside a secure context, whatever the types say. */
export const browserRoom = (): StorageRoom | undefined => (navigator as { readonly storage?: StorageManager }).storage;

/**
 * Asks the browser not to clear the app's storage when the disk runs low. To be asked once a person has begun a job: browsers
 * decide by use. False means that it may be cleared, and that records should be exported now and then.
 */
export async function keepStorage(storage: StorageRoom | undefined): Promise<boolean> {
  try {
    return storage !== undefined && ((await storage.persisted()) || (await storage.persist()));
  } catch {
    return false;
  }
}

/** Bytes that may still be stored, or null when the browser does not say. */
export async function roomLeft(storage: StorageRoom | undefined): Promise<number | null> {
  try {
    const { quota, usage } = (await storage?.estimate()) ?? {};
    return quota === undefined || usage === undefined ? null : Math.max(0, quota - usage);
  } catch {
    return null;
  }
}
