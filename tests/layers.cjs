// The house: each folder of src may import only from those below it. See DEVELOPERS.md.
const below = {
  nets: [],
  torque: [],
  procedure: ['torque'],
  phrasing: ['torque', 'procedure'],
  job: ['torque', 'procedure', 'phrasing'],
  drafting: ['nets', 'torque', 'procedure', 'phrasing'],
  review: ['torque', 'procedure', 'phrasing', 'job'],
  journal: ['torque', 'procedure', 'phrasing', 'job'],
  speech: ['nets', 'torque', 'procedure', 'phrasing'],
};
const pure = ['torque', 'procedure', 'phrasing', 'job', 'drafting', 'review'];
module.exports = {
  forbidden: [
    ...Object.entries(below).map(([folder, allowed]) => ({
      name: `${folder}-imports-only-downward`,
      severity: 'error',
      from: { path: `^src/${folder}/` },
      to: { path: '^src/', pathNot: `^src/(${[folder, ...allowed].join('|')})/` },
    })),
    { name: 'cli-does-not-import-app', severity: 'error', from: { path: '^src/cli/' }, to: { path: '^src/app/' } },
    { name: 'app-does-not-import-cli', severity: 'error', from: { path: '^src/app/' }, to: { path: '^src/cli/' } },
    {
      name: 'core-is-pure',
      severity: 'error',
      from: { path: `^src/(${pure.join('|')})/` },
      to: { path: 'node_modules/(react|react-dom|howler|idb-keyval|wouter|soundswallower|@echogarden)/' },
    },
    {
      name: 'core-has-no-node',
      severity: 'error',
      // Scripts that train the nets run on a desk, not in the app.
      from: { path: `^src/(${pure.join('|')}|speech|journal|app)/`, pathNot: '^src/(speech/hearing|drafting/reader)/training/' },
      to: { dependencyTypes: ['core'] },
    },
    { name: 'src-does-not-import-tests', severity: 'error', from: { path: '^src/' }, to: { path: '^tests/' } },
    {
      name: 'no-cycles',
      severity: 'error',
      from: { path: '^src/' }, // Types that name each other are erased; only what runs can go round in a circle.
      to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tests/tsconfig.json' },
    enhancedResolveOptions: { extensions: ['.ts', '.tsx', '.js', '.mjs', '.json'] },
  },
};
