// Which way imports may point: web, server, cli → book, drawings → engine; inside the engine plan → assess → domains → rules, parts → job → kernel.
// docs/architecture.md is the map of it. Tests may reach for anything they need.
const ENGINE = '^packages/engine/src/'
const TESTS = '\\.(test|fixture)\\.tsx?$'
const DOMAINS = ['power', 'site', 'fit', 'skin', 'air', 'haul', 'shop', 'money', 'energise', 'keep']

/** The engine's floors, lowest first. A file may import from its own folder and from lower floors. */
const FLOORS = [
  ['kernel'],
  ['job'],
  ['rules', 'parts', 'weather'],
  ['box'],
  DOMAINS,
  ['assess'],
  ['plan'],
  ['rank'],
  ['answer'],
  ['check'],
]

const floorRules = FLOORS.flatMap((floor, at) =>
  floor.map((folder) => {
    const lower = FLOORS.slice(0, at).flat()
    // `parts` builds on `rules`, `weather` on both; everything else on one floor keeps apart.
    const beside = floor.slice(0, floor.indexOf(folder)).filter(() => floor !== DOMAINS)
    return {
      name: `engine-${folder}-imports-downwards`,
      comment: `${folder} may import ${['itself', ...lower, ...beside].join(', ')}`,
      severity: 'error',
      from: { path: `${ENGINE}${folder}/`, pathNot: TESTS },
      // One domain takes another's result as a plain value: its types stand in result.ts.
      to: {
        path: ENGINE,
        pathNot: [
          `${ENGINE}(${[folder, ...lower, ...beside].join('|')})/`,
          ...(floor === DOMAINS ? [`${ENGINE}(${DOMAINS.join('|')})/[a-z/-]*result\\.ts$`] : []),
        ],
      },
    }
  }),
)

export default {
  forbidden: [
    ...floorRules,
    {
      name: 'engine-folders-meet-at-their-index',
      comment: 'Another folder is reached through its index.ts (or a result.ts, which holds types only).',
      severity: 'error',
      from: { path: `${ENGINE}([^/]+)/`, pathNot: TESTS },
      to: { path: `${ENGINE}([^/]+)/`, pathNot: [`${ENGINE}$1/`, '/(index|result|cases)\\.ts$'] },
    },
    {
      name: 'engine-touches-no-machine',
      comment: 'No disk, network, process or clock in the engine.',
      severity: 'error',
      from: { path: ENGINE, pathNot: TESTS },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'engine-stands-alone',
      comment: 'The engine imports no other package of ours.',
      severity: 'error',
      from: { path: '^packages/engine/' },
      to: { path: '^packages/(drawings|lists|book|cli|web)/' },
    },
    {
      name: 'engine-uses-two-libraries',
      comment: 'yaml and zod, nothing else.',
      severity: 'error',
      from: { path: ENGINE, pathNot: TESTS },
      to: {
        dependencyTypes: ['npm', 'npm-dev', 'npm-optional', 'npm-no-pkg', 'npm-unknown'],
        pathNot: '^node_modules/(yaml|zod)/',
      },
    },
    {
      name: 'drawings-build-on-the-engine-only',
      severity: 'error',
      from: { path: '^packages/drawings/' },
      to: { path: '^packages/(lists|book|cli|web)/' },
    },
    {
      name: 'lists-build-on-the-engine-only',
      severity: 'error',
      from: { path: '^packages/lists/' },
      to: { path: '^packages/(drawings|book|cli|web)/' },
    },
    {
      name: 'book-does-not-know-the-terminal',
      severity: 'error',
      from: { path: '^packages/book/' },
      to: { path: '^packages/(cli|web)/' },
    },
    {
      name: 'terminal-and-app-do-not-know-each-other',
      severity: 'error',
      from: { path: '^packages/(cli|web)/' },
      to: { path: '^packages/(cli|web)/', pathNot: '^packages/$1/' },
    },
    {
      name: 'the-page-computes-nothing',
      comment:
        'The engine that plans and assesses runs in the worker; the page takes its types, and words and numbers from the kernel.',
      severity: 'error',
      from: { path: '^packages/web/src/', pathNot: [TESTS, '^packages/web/src/worker/'] },
      to: {
        path: '^packages/(engine/src/(?!kernel/)|drawings/src/(?!(verdict-marks|hatches)\\.ts)|book/)',
        dependencyTypesNot: ['type-only'],
      },
    },
    {
      name: 'packages-meet-at-their-exports',
      comment: 'A package is imported by its name, never by a path into it.',
      severity: 'error',
      from: { path: '^packages/([^/]+)/' },
      to: { path: '^packages/([^/]+)/', pathNot: '^packages/$1/', dependencyTypes: ['local'] },
    },
    {
      name: 'no-circles',
      severity: 'error',
      from: { pathNot: TESTS },
      to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
    },
    {
      name: 'everything-resolves',
      comment: 'What the build takes in as text or as an address is resolved by the build, which fails without it.',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true, pathNot: '\\?(url|raw)$' },
    },
    {
      name: 'tools-stay-in-tests',
      comment: 'What is installed for development only is not imported by what runs.',
      severity: 'error',
      from: { path: '^packages/', pathNot: [TESTS, '/test/'] },
      to: { dependencyTypes: ['npm-dev'], dependencyTypesNot: ['type-only'] },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '(^|/)(out|coverage)/|^packages/[^/]+/dist/' },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'node', 'default', 'types'],
      extensions: ['.ts', '.tsx', '.mjs', '.js'],
    },
  },
}
