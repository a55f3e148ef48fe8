// Who may import whom (DEVELOPERS.md draws the table). An allow list: what is not named here fails, and so do circles.
const core = [
  'units',
  'plan',
  'graph',
  'walk',
  'edit',
  'snap',
  'trim',
  'fit',
  'stock',
  'survey',
  'report',
  'sheets',
];
const PURE = '^node_modules/(immer|zod|robust-predicates|flatbush|flatqueue|@humanwhocodes/momoa|fontkit)/';

const coreRules = core.map((folder, position) => ({
  from: { path: `^core/${folder}/`, pathNot: '^core/sheets/pdf/' },
  to: { path: [`^core/(${core.slice(0, position + 1).join('|')})/`, PURE], pathNot: '^core/sheets/pdf/' },
}));

module.exports = {
  forbidden: [
    { name: 'no-circles', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'no-unresolved',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true, pathNot: '^highs/runtime\\?url$' },
    },
    {
      name: 'nothing-imports-tests',
      severity: 'error',
      from: { pathNot: '^tests/' },
      to: { path: '^tests/' },
    },
  ],
  allowed: [
    ...coreRules,
    { from: { path: '^core/sheets/pdf/' }, to: { path: ['^core/', '^node_modules/(pdfkit|fontkit)/'] } },
    {
      from: { path: '^electron/contract\\.ts$' },
      to: { path: ['^core/', '^electron/channels\\.ts$', '^node_modules/zod/'] },
    },
    // electron/menu.ts and electron/channels.ts import nothing.
    {
      from: { path: '^electron/services/' },
      to: {
        path: [
          '^core/',
          '^electron/(services/|(contract|menu|channels)\\.ts$)',
          '^node_modules/(highs|zod|@expo-google-fonts/inter)/',
          '^(node:)?[a-z_/]+$',
        ],
      },
    },
    {
      from: { path: '^electron/(main/|local/|scripts/|preload\\.ts$|cli\\.ts$)' },
      to: {
        path: [
          '^core/',
          '^electron/(services/|(contract|menu|channels)\\.ts$|local/|main/|scripts/|cli\\.ts$)',
          '^node_modules/commander/',
          '^(node:)?[a-z_/]+$',
        ],
      },
    },
    { from: { path: '^electron/(main/|preload\\.ts$)' }, to: { path: '^node_modules/electron/' } },
    { from: { path: '^electron/scripts/' }, to: { path: '^node_modules/(vite|esbuild|electron-builder)/' } },
    { from: { path: '^electron/services/thread-sources\\.mjs$' }, to: { path: '^node_modules/esbuild/' } },
    {
      from: { path: '^renderer/', pathNot: '^renderer/(work/worker\\.ts|vite\\.config\\.ts)$' },
      to: {
        path: [
          '^core/',
          '^renderer/',
          '^electron/(contract|menu|channels)\\.ts$',
          '^node_modules/(react|react-dom|@types/react|@types/react-dom|konva|react-konva|immer|zod|@ariakit|flatbush|vite)/',
        ],
        pathNot: '^core/sheets/pdf/',
      },
    },
    {
      from: { path: '^renderer/work/worker\\.ts$' },
      to: {
        path: [
          '^core/',
          '^renderer/work/',
          '^highs/runtime',
          '^node_modules/(highs|@expo-google-fonts/inter|vite)/',
        ],
      },
    },
    {
      from: { path: '^renderer/vite\\.config\\.ts$' },
      to: { path: ['^node_modules/(vite|@vitejs)/', '^(node:)?[a-z_/]+$'] },
    },
    { from: { path: '^node_modules/' }, to: {} },
  ],
  allowedSeverity: 'error',
  options: {
    doNotFollow: { path: '^node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'core/tsconfig.json' },
    enhancedResolveOptions: {
      extensions: ['.ts', '.tsx', '.mjs', '.js', '.json'],
      exportsFields: ['exports'],
      conditionNames: ['import', 'node', 'default'],
    },
  },
};
