import type { IRegularForbiddenRuleType } from 'dependency-cruiser';

/** What each folder of `common` may import of the others; `clock` stands alone. */
export const DOWNWARD: Readonly<Record<string, readonly string[]>> = {
  theory: [],
  chart: ['theory'],
  form: ['theory', 'chart'],
  stage: ['theory', 'chart', 'form'],
  clock: [],
  shapes: ['theory', 'chart', 'form'],
  help: ['theory', 'chart', 'form', 'shapes'],
  band: ['theory', 'chart', 'form', 'stage'],
  rehearsal: ['theory', 'chart', 'form', 'stage'],
  interchange: ['theory', 'chart', 'form', 'stage', 'band', 'shapes', 'rehearsal'],
  document: ['theory', 'chart', 'form', 'stage', 'band', 'shapes', 'rehearsal'],
  protocol: ['theory', 'chart', 'form', 'stage'],
  demo: ['theory', 'chart', 'form', 'stage', 'document'],
};

/** Packages that one folder of `common` may use. */
const PACKAGES: readonly { readonly name: string; readonly folder: string }[] = [
  { name: 'tonal', folder: 'theory' },
  { name: 'yjs', folder: 'document' },
  { name: 'fractional-indexing', folder: 'document' },
  { name: 'valibot', folder: 'protocol' },
];

const PARTS = ['net', 'sound', 'storage', 'state'];
const VIEWS = 'stand|podium|pencil|book|set|takes|shed';
/** What `state` offers to the other parts: the seams, not its insides. */
const SEAMS = '^client/state/(observable|board|board-parts|link-state|band-sound)[.]ts$';

const forbidden = (
  name: string,
  comment: string,
  from: IRegularForbiddenRuleType['from'],
  to: IRegularForbiddenRuleType['to'],
): IRegularForbiddenRuleType => ({ name, comment, severity: 'error', from, to });

const anyPackage = 'node_modules/';

export const IMPORT_RULES: readonly IRegularForbiddenRuleType[] = [
  forbidden(
    'no cycles',
    'Two files that need each other are one thought or hide a third: put what both need into a file of its own.',
    {},
    { circular: true },
  ),
  forbidden(
    'everything is found',
    'The import leads nowhere: correct the path (with its .ts or .tsx), or install the package.',
    {},
    { couldNotResolve: true },
  ),
  forbidden(
    'common is pure',
    'common runs on both sides: it may import only common and its few packages. Take what you need as an argument.',
    { path: '^common/' },
    {
      pathNot: ['^common/', ...PACKAGES.map(({ name }) => `${anyPackage}${name}/`)],
    },
  ),
  ...PACKAGES.map(({ name, folder }) =>
    forbidden(
      `in common, ${name} only in ${folder}`,
      `common/${folder} wraps ${name} for everybody: use its functions, or add one there.`,
      { path: '^common/', pathNot: `^common/${folder}/` },
      { path: `${anyPackage}${name}/` },
    ),
  ),
  ...Object.entries(DOWNWARD).map(([folder, below]) =>
    forbidden(
      `common/${folder} only looks down`,
      `It may use ${['units, result, ids', ...below].join(', ')}. Move what both need down, or take it as an argument.`,
      { path: `^common/${folder}/` },
      { path: '^common/[^/]+/', pathNot: [folder, ...below].map((name) => `^common/${name}/`) },
    ),
  ),
  forbidden(
    'the root of common stands on nothing',
    'units, result and ids are under everything else: they import nothing but each other.',
    { path: '^common/[^/]+$' },
    { pathNot: '^common/[^/]+$' },
  ),
  forbidden(
    'client and relay meet only in common',
    'They talk over the wire. Put what both know into common (messages into common/protocol).',
    { path: '^client/' },
    { path: '^server/' },
  ),
  forbidden(
    'relay and client meet only in common',
    'They talk over the wire. Put what both know into common (messages into common/protocol).',
    { path: '^server/' },
    { path: '^client/' },
  ),
  forbidden(
    'the product does not need its tests',
    'Move what is needed out of tests.',
    { path: '^(client|common|server)/' },
    { path: '^tests/' },
  ),
  forbidden(
    'engraving takes props only',
    'Its components draw what they are given, anywhere: pass values in as props instead of fetching them.',
    { path: '^client/engraving/' },
    { path: '^client/', pathNot: ['^client/engraving/', '^client/styles/'] },
  ),
  ...PARTS.map((part) =>
    forbidden(
      `client/${part} knows no other part and no view`,
      'app/wiring joins the parts: take what you need as an argument, typed in client/state/board-parts or link-state.',
      { path: `^client/${part}/` },
      {
        path: `^client/(${[...PARTS, 'app', 'engraving'].join('|')}|${VIEWS})/`,
        pathNot: [`^client/${part}/`, SEAMS],
      },
    ),
  ),
  forbidden(
    'views reach the network through the board',
    'A view reads and calls `Board` from its context; app/wiring alone opens sockets.',
    { path: `^client/(${VIEWS})/` },
    { path: '^client/(net|sound)/' },
  ),
];
