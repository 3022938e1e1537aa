/** Primary tags of the languages that the recogniser on this device has a model for. */
export const heardLocally: readonly string[] = ['en'];
