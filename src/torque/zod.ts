import { config, z } from 'zod';

// Zod compiles its checks with `new Function` where it can. The page's content security policy forbids that, and reports even the attempt.
config({ jitless: true });

/** The one way to zod: schemas made before the line above would still try. */
export { z };
