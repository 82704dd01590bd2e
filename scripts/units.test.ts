import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join, relative } from 'node:path'
import ts from 'typescript'
import { expect, test } from 'vitest'
import { UNIT_ENDINGS } from '../packages/engine/src/kernel/units.ts'

/** Numbers without a unit at the end of their name, and why. What is not on this list ends in one. */
const WITHOUT: Readonly<Record<string, readonly string[]>> = {
  'its name is what is counted': [
    ...['circuits', 'connectorPairs', 'connectors', 'couplings', 'crossings', 'devices', 'digits', 'dimensions', 'elbows'],
    ...['grounds', 'legs', 'nipples', 'nodes', 'offsetConnectors', 'passes', 'passesMost', 'plugs', 'poles', 'devicePoles'],
    ...['mainPoles', 'pullBoxes', 'rods', 'runSlots', 'sets', 'slingLegs', 'setUpsLeast', 'tried', 'ways', 'wires', 'carrying'],
    ...['othersCarrying', 'alike', 'wanted', 'work', 'mostWork', 'times'],
  ],
  'a position: in a list, a table, a file, a day of slots or a year of months': [
    ...[
      'ceilingAfter',
      'circuit',
      'column',
      'cord',
      'culprit',
      'day',
      'end',
      'firstSlot',
      'from',
      'fromMonth',
      'hour',
      'interimEnd',
      'item',
      'lastHour',
      'line',
      'month',
      'nth',
      'p',
    ],
    ...['todayClass', 'nextClass'],
    ...['floorAt', 'gearAt', 'panel', 'parent', 'plug', 'rank', 'row', 'stock', 'terminalFrom', 'to', 'toMonth', 'way'],
  ],
  'the cosine of an angle': ['cosIncidence', 'cosSlope'],
  'a day or an hour of the calendar, a year by its number': ['firstDay', 'firstHour', 'year'],
  'a ratio, a score or a number of the trade without a unit': [
    ...['firstRunHours', 'leakExponent', 'stepsPerHour'],
    ...['factor', 'gauge', 'multiplier', 'reachScore', 'relative', 'scale', 'use', 'windShape', 'xOverR'],
  ],
  'the unit stands in a field beside it, or in the name of what holds it': [
    ...['accuracy', 'bias', 'logged', 'offset', 'ours', 'rms', 'spread'],
    ...[
      'absolute',
      'amount',
      'high',
      'hours',
      'hoursEach',
      'im',
      'likely',
      'mean',
      'variance',
      'limit',
      'low',
      'max',
      'middle',
      'most',
      'quantity',
      're',
      'tolerance',
      'turnsAt',
      'value',
    ],
  ],
  'the unit stands first: days, money': ['daysAfterOrder', 'daysToNeed', 'moneyDelta'],
  'what is billed: kW or kVA, as the tariff says': ['highest11'],
  'an impedance in ohms, under the letters of every book': ['r', 'x'],
  'one loop serves amperes of a leg, watts of a service and squares of either': [
    ...['after', 'before', 'bound', 'primary', 'roof', 'squares', 'total'],
  ],
  'in the unit of the person’s own cutting list, or of its stock’s price': [
    ...['capacity', 'capacity2', 'cost', 'demand', 'ffdCost', 'gap', 'kerf', 'least', 'left', 'length', 'length2', 'linearBound'],
    ...['materialBound', 'needed', 'plainCost', 'remnant', 'saw', 'sawn', 'size', 'size2', 'there', 'trim'],
  ],
}

const home = join(dirname(import.meta.dirname), 'packages/engine/src')
const lower = (word: string) => word.charAt(0).toLowerCase() + word.slice(1)
const endsInUnit = (name: string) => UNIT_ENDINGS.some((unit) => name === lower(unit) || name.endsWith(unit))

interface Held {
  readonly name: string
  readonly place: string
}

/** Numbers and spans of exported interfaces, but those inside a property whose own name ends in a unit. */
function numbersOf(path: string, text: string): readonly Held[] {
  const file = ts.createSourceFile(path, text, ts.ScriptTarget.Latest)
  const found: Held[] = []
  const look = (node: ts.Node, of: string): void => {
    if (ts.isPropertySignature(node) && node.type !== undefined) {
      const name = node.name.getText(file)
      if (/^(number|Span)( \| (null|undefined))*$/.test(node.type.getText(file))) found.push({ name, place: `${of}.${name}` })
      else if (endsInUnit(name)) return
    }
    ts.forEachChild(node, (child) => look(child, of))
  }
  for (const statement of file.statements) {
    const exported =
      ts.isInterfaceDeclaration(statement) && statement.modifiers?.some((m) => m.kind === ts.SyntaxKind.ExportKeyword)
    if (exported) for (const member of statement.members) look(member, `${path} ${statement.name.text}`)
  }
  return found
}

const held = readdirSync(home, { recursive: true, withFileTypes: true })
  .filter((e) => e.isFile() && e.name.endsWith('.ts') && !/\.(test|fixture|generated)\.ts$/.test(e.name))
  .map((e) => join(e.parentPath, e.name))
  .flatMap((path) => numbersOf(relative(home, path), readFileSync(path, 'utf8')))
const excused = new Set(Object.values(WITHOUT).flat())

test('every number of an exported interface ends in a unit of the closed list, or is excused with a reason', () => {
  expect(held.length).toBeGreaterThan(1000)
  expect(held.filter(({ name }) => !endsInUnit(name) && !excused.has(name)).map(({ place }) => place)).toEqual([])
})

test('nobody is excused twice, in vain, or while a unit stands at the end', () => {
  const names = Object.values(WITHOUT).flat()
  expect(names).toHaveLength(excused.size)
  const used = new Set(held.map(({ name }) => name))
  expect(names.filter((name) => !used.has(name) || endsInUnit(name))).toEqual([])
})

test('a number without a unit is seen, also in a shape within a shape; one whose holder has the unit is not asked again', () => {
  const seen = numbersOf(
    'made.ts',
    'export interface Made { readonly height: number; readonly massKg: Span | null; readonly inner: { readonly wide: number }; readonly loadKg: { readonly single: number } }\ninterface Own { readonly depth: number }',
  )
  expect(seen.filter(({ name }) => !endsInUnit(name)).map(({ name }) => name)).toEqual(['height', 'wide'])
})
