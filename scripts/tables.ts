/**
 * Writes the rule tables and the overlays that come with the program, which people keep as YAML, into typed modules that the engine imports.
 *
 *   node scripts/tables.ts           writes packages/engine/src/rules/tables.generated.ts and overlays.generated.ts
 *   node scripts/tables.ts --check   writes nothing; exit 1 when a module does not agree with the YAML
 */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { parseDocument } from 'yaml'
import { overlayFrom } from '../packages/engine/src/rules/overlay/read.ts'
import type { Table } from '../packages/engine/src/rules/rule-set.ts'
import { setTables } from '../packages/engine/src/rules/set-tables.ts'

const here = dirname(fileURLToPath(import.meta.url))
export const rulesFolder = join(here, '../packages/engine/src/rules')
export const modulePath = join(rulesFolder, 'tables.generated.ts')
export const overlaysPath = join(rulesFolder, 'overlays.generated.ts')

export interface TableFile {
  /** Path below the rules folder, with forward slashes: `us/tables/us-egc.yaml`. */
  readonly path: string
  readonly text: string
}

type Cell = string | number | null | readonly number[]

/** Every table file of every set, in the order of their paths. */
export const tableFiles = (folder: string = rulesFolder): readonly TableFile[] => yamlFiles(folder, 'tables')

/** Every overlay file that comes with the program. */
export const overlayFiles = (folder: string = rulesFolder): readonly TableFile[] => yamlFiles(folder, 'overlays')

function yamlFiles(folder: string, below: string): readonly TableFile[] {
  return readdirSync(folder, { withFileTypes: true })
    .filter((set) => set.isDirectory() && existsSync(join(folder, set.name, below)))
    .flatMap((set) =>
      readdirSync(join(folder, set.name, below))
        .filter((name) => name.endsWith('.yaml'))
        .map((name) => `${set.name}/${below}/${name}`),
    )
    .sort()
    .map((path) => ({ path, text: readFileSync(join(folder, path), 'utf8') }))
}

/** One table as read; throws an Error that names the file and what is wrong with it. */
export function readTable(file: TableFile) {
  const wrong = (what: string): never => {
    throw new Error(`${file.path}: ${what}`)
  }
  const document = parseDocument(file.text, { uniqueKeys: true })
  if (document.errors.length > 0) wrong(document.errors.map((e) => e.message).join('; '))
  const t = document.toJS() as Record<string, unknown>
  const known = ['id', 'title', 'units', 'columns', 'rows', 'source', 'provenance', 'address', 'notes']
  for (const key of Object.keys(t)) if (!known.includes(key)) wrong(`unknown key “${key}”`)
  for (const key of known) if (!(key in t)) wrong(`lacks “${key}”`)
  for (const key of ['id', 'title', 'source', 'provenance']) {
    if (typeof t[key] !== 'string' || t[key] === '') wrong(`“${key}” must be words`)
  }
  if (t.id !== basename(file.path, '.yaml')) wrong(`id “${String(t.id)}” differs from the file's name`)
  const columns = t.columns as string[]
  const rows = t.rows as Cell[][]
  if (!Array.isArray(columns) || columns.length === 0 || new Set(columns).size !== columns.length)
    wrong('columns must be distinct words')
  if (!Array.isArray(rows) || rows.length === 0) wrong('has no rows')
  rows.forEach((row, i) => {
    if (!Array.isArray(row) || row.length !== columns.length)
      wrong(`row ${i + 1} has ${row?.length} cells, not ${columns.length}`)
    for (const cell of row) if (!isCell(cell)) wrong(`row ${i + 1}: a cell is text, a finite number, null or a list of numbers`)
  })
  if (!(t.address === null || typeof t.address === 'string')) wrong('address must be text or null')
  if (!Array.isArray(t.notes) || !(t.notes as unknown[]).every((n) => typeof n === 'string'))
    wrong('notes must be a list of text')
  return {
    id: t.id as string,
    title: t.title as string,
    units: t.units as Record<string, string>,
    columns,
    rows,
    source: t.source as string,
    provenance: t.provenance as string,
    address: t.address as string | null,
    notes: t.notes as string[],
  }
}

/** The text of the generated module. Same files, same bytes. */
export function tablesModule(files: readonly TableFile[]): string {
  const seen = new Map<string, string>()
  const parts: string[] = []
  for (const file of files) {
    const t = readTable(file)
    const twin = seen.get(t.id)
    if (twin !== undefined) throw new Error(`${file.path}: table ${t.id} stands in ${twin} too`)
    seen.set(t.id, file.path)
    const set = file.path.slice(0, file.path.indexOf('/'))
    parts.push(
      [
        `  ${JSON.stringify(t.id)}: {`,
        `    id: ${JSON.stringify(t.id)}, set: ${JSON.stringify(set)}, title: ${JSON.stringify(t.title)},`,
        `    units: ${JSON.stringify(t.units)},`,
        `    columns: ${JSON.stringify(t.columns)},`,
        '    rows: [',
        ...t.rows.map((row) => `      ${JSON.stringify(row)},`),
        '    ],',
        `    source: ${JSON.stringify(t.source)},`,
        `    provenance: ${JSON.stringify(t.provenance)},`,
        `    address: ${JSON.stringify(t.address)},`,
        `    notes: ${JSON.stringify(t.notes)},`,
        '  },',
      ].join('\n'),
    )
  }
  return [
    '// Written by scripts/tables.ts from the YAML files beside it. Change those, then run: npm run tables',
    "import type { Table } from './rule-set.ts'",
    '',
    `export type TableId =\n${[...seen.keys()].map((id) => `  | ${JSON.stringify(id)}`).join('\n')}`,
    '',
    'export const tables: Readonly<Record<TableId, Table>> = {',
    ...parts,
    '}',
    '',
  ].join('\n')
}

/** Folders of the engine that keep tables of their own beside the rule sets'. */
export const SHELVES = ['parts', 'weather', 'box', 'fit', 'skin', 'air', 'haul', 'shop', 'site'] as const

export const shelfFolder = (shelf: string): string => join(rulesFolder, '..', shelf)
export const shelfModulePath = (shelf: string): string => join(shelfFolder(shelf), 'tables.generated.ts')

/** Table files of one such folder, in the order of their names. */
export function shelfFiles(shelf: string): readonly TableFile[] {
  const folder = join(shelfFolder(shelf), 'tables')
  if (!existsSync(folder)) return []
  return readdirSync(folder)
    .filter((name) => name.endsWith('.yaml'))
    .sort()
    .map((name) => ({ path: `${shelf}/tables/${name}`, text: readFileSync(join(folder, name), 'utf8') }))
}

/** The text of such a folder's generated module. */
export function shelfModule(files: readonly TableFile[]): string {
  const parts = files.map((file) => {
    const { id, title, units, columns, rows, source, provenance, address, notes } = readTable(file)
    return [
      `  ${JSON.stringify(id)}: {`,
      `    id: ${JSON.stringify(id)}, title: ${JSON.stringify(title)},`,
      `    units: ${JSON.stringify(units)},`,
      `    columns: ${JSON.stringify(columns)},`,
      '    rows: [',
      ...rows.map((row) => `      ${JSON.stringify(row)},`),
      '    ],',
      `    source: ${JSON.stringify(source)},`,
      `    provenance: ${JSON.stringify(provenance)},`,
      `    address: ${JSON.stringify(address)},`,
      `    notes: ${JSON.stringify(notes)},`,
      '  },',
    ].join('\n')
  })
  return [
    '// Written by scripts/tables.ts from the YAML files under tables/. Change those, then run: npm run tables',
    "import type { ShelfTable } from '../kernel/index.ts'",
    '',
    'export const tables = {',
    ...parts,
    '} as const satisfies Readonly<Record<string, ShelfTable>>',
    '',
  ].join('\n')
}

/** The text of the generated module of overlays; throws an Error that names the file and every problem in it. */
export function overlaysModule(files: readonly TableFile[], tableFilesToRead: readonly TableFile[]): string {
  const all: Record<string, Table> = {}
  for (const file of tableFilesToRead) {
    const table = readTable(file)
    all[table.id] = { ...table, set: file.path.slice(0, file.path.indexOf('/')) as Table['set'] }
  }
  const parts = files.map((file) => {
    const read = overlayFrom(file.text, (set) => setTables(set, all))
    if (!read.ok)
      throw new Error(
        `${file.path}: ${read.problems.map((p) => `${p.path ?? ''} ${p.found}, wanted ${p.wanted}. ${p.mend}`).join('; ')}`,
      )
    return `  ${JSON.stringify(read.value.id)}: ${JSON.stringify(read.value, null, 2).replaceAll('\n', '\n  ')},`
  })
  return [
    '// Written by scripts/tables.ts from the YAML files under overlays/. Change those, then run: npm run tables',
    "import type { Overlay } from './rule-set.ts'",
    '',
    'export const overlays: Readonly<Record<string, Overlay>> = {',
    ...parts,
    '}',
    '',
  ].join('\n')
}

const isCell = (c: unknown): boolean =>
  c === null ||
  typeof c === 'string' ||
  (typeof c === 'number' && Number.isFinite(c)) ||
  (Array.isArray(c) && c.length > 0 && c.every((n) => typeof n === 'number' && Number.isFinite(n)))

function main(args: readonly string[]): number {
  const wanted = [
    [modulePath, tablesModule(tableFiles())],
    [overlaysPath, overlaysModule(overlayFiles(), tableFiles())],
    ...SHELVES.filter((shelf) => shelfFiles(shelf).length > 0).map(
      (shelf) => [shelfModulePath(shelf), shelfModule(shelfFiles(shelf))] as const,
    ),
  ] as const
  if (!args.includes('--check')) {
    for (const [path, text] of wanted) writeFileSync(path, text)
    console.log(`rules: ${tableFiles().length} tables, ${overlayFiles().length} overlays`)
    for (const shelf of SHELVES) if (shelfFiles(shelf).length > 0) console.log(`${shelf}: ${shelfFiles(shelf).length} tables`)
    return 0
  }
  const differ = wanted.filter(([path, text]) => (existsSync(path) ? readFileSync(path, 'utf8') : '') !== text)
  for (const [path, text] of differ) {
    const was = existsSync(path) ? readFileSync(path, 'utf8').split('\n') : []
    const at = text.split('\n').findIndex((line, i) => line !== was[i])
    console.error(
      `${basename(dirname(path))}/${basename(path)} differs from the YAML from line ${at + 1} on. Run: npm run tables`,
    )
  }
  return differ.length === 0 ? 0 : 1
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href)
  process.exitCode = main(process.argv.slice(2))
