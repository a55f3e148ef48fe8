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
    { name: 'no-unresolved', severity: 'error', from: {}, to: { couldNotResolve: true } },
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
    { from: { path: '^electron/contract\\.ts$' }, to: { path: ['^core/', '^node_modules/zod/'] } },
    {
      from: { path: '^electron/services/' },
      to: {
        path: [
          '^core/',
          '^electron/(services/|contract\\.ts$)',
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
          '^electron/(services/|contract\\.ts$|local/|main/|scripts/|cli\\.ts$)',
          '^node_modules/commander/',
          '^(node:)?[a-z_/]+$',
        ],
      },
    },
    { from: { path: '^node_modules/' }, to: {} },
  ],
  allowedSeverity: 'error',
  options: {
    doNotFollow: { path: '^node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'core/tsconfig.json' },
    enhancedResolveOptions: {
      extensions: ['.ts', '.mjs', '.js', '.json'],
      exportsFields: ['exports'],
      conditionNames: ['import', 'node', 'default'],
    },
  },
};
