import fc from 'fast-check';

/**
 * Property tests try the same examples on every run, so that a run that passed passes again. `EXAMPLES=any npm test` tries others,
 * `EXAMPLES=12345 npm test` those of another seed.
 */
const wanted = process.env['EXAMPLES'] ?? '20261128';
if (wanted !== 'any') fc.configureGlobal({ seed: Number(wanted) });
