import tseslint from 'typescript-eslint';

const clocksAndChance = [
  { object: 'Date', property: 'now', message: 'Time comes in as data; only adapters and app read the clock.' },
  { object: 'Math', property: 'random', message: 'Chance comes in as data; only adapters and app draw it.' },
  { object: 'performance', property: 'now', message: 'Time comes in as data; only adapters and app read the clock.' },
];

export default tseslint.config(
  { ignores: ['dist/', 'node_modules/', 'coverage/', '.cache/', 'audio/', 'tests/layers.cjs', 'eslint.config.js', '**/*.d.ts'] },
  {
    files: ['src/**/*.{ts,tsx}', 'tests/**/*.{ts,tsx}', 'vite.config.ts'],
    extends: [...tseslint.configs.strictTypeChecked],
    languageOptions: {
      parserOptions: {
        project: [
          'src/tsconfig.core.json',
          'src/tsconfig.web.json',
          'src/tsconfig.worker.json',
          'src/tsconfig.node.json',
          'tests/tsconfig.json',
        ],
        tsconfigRootDir: import.meta.dirname,
      },
    },
    rules: {
      // Numbers read well in templates, and every number here is meant to be read.
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/switch-exhaustiveness-check': ['error', { considerDefaultExhaustiveForUnions: true }],
      // `() => send(x)` in a handler says what happens; braces around it say nothing more.
      '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
      'no-restricted-syntax': ['error', { selector: 'ExportDefaultDeclaration', message: 'Named exports only.' }],
      'no-restricted-imports': [
        'error',
        { paths: [{ name: 'zod', message: 'Import it from src/torque/zod.ts, which keeps it from eval.' }] },
      ],
    },
  },
  { files: ['src/torque/zod.ts', 'tests/**'], rules: { 'no-restricted-imports': 'off' } },
  {
    files: ['src/{torque,procedure,phrasing,job,review,drafting}/**/*.ts'],
    ignores: ['**/*.worker.ts'],
    rules: {
      'no-restricted-properties': ['error', ...clocksAndChance],
      'no-restricted-globals': ['error', 'setTimeout', 'setInterval', 'window', 'document', 'navigator', 'performance', 'process'],
      'no-restricted-syntax': [
        'error',
        { selector: 'ExportDefaultDeclaration', message: 'Named exports only.' },
        {
          selector: 'NewExpression[callee.name="Date"][arguments.length=0]',
          message: 'Time comes in as data; only adapters and app read the clock.',
        },
      ],
    },
  },
  {
    files: ['tests/**/*.{ts,tsx}'],
    rules: {
      // Test data is indexed by hand; a wrong index fails the test, which is what it is for.
      '@typescript-eslint/no-non-null-assertion': 'off',
      // Tests take values apart that have no types of their own, and spread strings that they wrote themselves.
      '@typescript-eslint/no-unsafe-return': 'off',
      '@typescript-eslint/no-misused-spread': 'off',
    },
  },
  {
    // Both packages' factories are untyped where no DOM is declared.
    files: ['src/speech/hearing/load.ts'],
    rules: { '@typescript-eslint/no-unsafe-assignment': 'off' },
  },
  {
    // Tools that insist on a default export for their configuration.
    files: ['vite.config.ts', 'tests/mutation/vitest.config.ts'],
    rules: { 'no-restricted-syntax': 'off' },
  },
);
