import type { ExitWay } from '../../job/index.ts'
import { Fault, put, step, weakest } from '../../kernel/index.ts'
import type { BuildRules } from '../build-rules.ts'
import type { Cited, RuleSet } from '../rule-set.ts'
import { type Book, figure, numberAt, numberOrNull, rests, rowIndex, rowNotOver, tableOf, wordAt } from './book.ts'
import { CHOICES } from './choices.ts'

/** What a set says of hanging, cutting, lighting and hauling, from its own tables `<set>-build` and those beside it. */
export function buildRulesOf(book: Book): BuildRules {
  return {
    workingSpace: (of) => workingSpace(book, of),
    handleAtMostM: siFigure(book, 'handle-at-most'),
    aboveGearOutM: siFigure(book, 'above-gear-out'),
    airGapM: siFigure(book, 'air-gap'),
    racewaySupport: (of) => racewaySupport(book, of),
    bendsBetweenPullsDeg: numberAt(book, `${book.set}-build`, 'bends-between-pulls', 'value'),
    bendRadiusM: (of) => bendRadiusM(book, of),
    panelLux: numberAt(book, `${book.set}-build`, 'panel-lux', 'value'),
    sensorAloneAllowed: sensorAloneAllowed(book),
    egress: egress(book),
    cordThroughWall: (way) => cordThroughWall(book, way),
    securing: securing(book),
    routeHeightM: siFigure(book, 'route-height'),
    axleGroupKg: axleGroupKg(book),
    windBy: oneOf('wind-by', wordAt(book, `${book.set}-build`, 'wind-by', 'value').value),
    snowBy: oneOf('snow-by', wordAt(book, `${book.set}-build`, 'snow-by', 'value').value),
  }
}

/** What a set says of a wireway, from its figures. */
export const wirewayOf = (book: Book): RuleSet['wireway'] => {
  const fill = figure(book, 'wireway-fill')
  return {
    fillFrac: { value: fill.value / 100, rests: fill.rests },
    uncountedTo: figure(book, 'wireway-uncounted'),
    supportEveryM: figure(book, 'wireway-support'),
  }
}

/** @throws Fault `rules/choice` where a table says a word that is none of its choices */
function oneOf<K extends keyof typeof CHOICES>(name: K, found: string): (typeof CHOICES)[K][number] {
  const hit = CHOICES[name].find((one) => one === found)
  if (hit === undefined) throw new Fault('rules/choice', { name, found })
  return hit
}

/** SI units in one of the printed unit. */
const IN_SI: Readonly<Record<string, number>> = { m: 1, mm: 0.001, in: 0.0254, ft: 0.3048, kg: 1, lb: 0.45359237 }

function siOf(unit: unknown): number {
  const factor = IN_SI[String(unit)]
  if (factor === undefined) throw new Fault('rules/unit', unit)
  return factor
}

/** A figure of `<set>-build` in SI, by the unit its row prints. */
function siFigure(book: Book, name: string): Cited<number> {
  const id = `${book.set}-build`
  const cell = numberAt(book, id, name, 'value')
  return { value: cell.value * siOf(wordAt(book, id, name, 'unit').value), rests: cell.rests }
}

/**
 * Clear box in front of gear: depth by volts to earth and condition, width and height never less than the equipment's.
 * @throws Fault `rules/working-space` above the last printed voltage
 */
function workingSpace(book: Book, of: Parameters<BuildRules['workingSpace']>[0]): ReturnType<BuildRules['workingSpace']> {
  const id = `${book.set}-working-space`
  const table = tableOf(book, id)
  const at = rowNotOver(table, 'to_V', of.voltsToEarthV)
  if (!(of.voltsToEarthV >= 0) || at < 0) throw new Fault('rules/working-space', of)
  const column = `condition_${of.condition}`
  const printed = table.rows[at]?.[table.columns.indexOf(column)]
  if (typeof printed !== 'number') throw new Fault('rules/working-space', of)
  const depthM = printed * siOf(table.units.depth)
  const [least, height] = [siFigure(book, 'width-least'), siFigure(book, 'height-least')]
  const widthM = Math.max(least.value, of.equipmentWidthM)
  const heightM = Math.max(height.value, of.equipmentTopM)
  return {
    value: { depthM, widthM, heightM },
    steps: [
      step(
        'depth',
        `to ${String(table.rows[at]?.[0])} V to earth, condition ${of.condition}`,
        [put('U', of.voltsToEarthV, 'V')],
        depthM,
        'm',
        rests(book, table, at, column),
      ),
      step(
        'width',
        'the greater of the least and the equipment',
        [put('least', least.value, 'm'), put('equipment', of.equipmentWidthM, 'm')],
        widthM,
        'm',
        least.rests,
      ),
      step(
        'height',
        'the greater of the least and the top of the equipment',
        [put('least', height.value, 'm'), put('top', of.equipmentTopM, 'm')],
        heightM,
        'm',
        height.rests,
      ),
    ],
  }
}

/** Key of a raceway's row: its own trade size where the table splits by size, else `all`. @throws Fault `rules/raceway` */
function racewayKey(book: Book, id: string, of: { readonly kind: string; readonly trade: string }) {
  const table = tableOf(book, id)
  for (const trade of [of.trade, 'all']) {
    const key = { kind: of.kind, trade }
    if (rowIndex(table, key) >= 0) return key
  }
  throw new Fault('rules/raceway', { id, ...of })
}

function racewaySupport(
  book: Book,
  of: { readonly kind: string; readonly trade: string },
): Cited<{ readonly everyM: number; readonly fromBoxM: number }> {
  const id = `${book.set}-raceway-support`
  const key = racewayKey(book, id, of)
  const unit = siOf(tableOf(book, id).units.distance)
  const [every, fromBox] = [numberAt(book, id, key, 'every'), numberAt(book, id, key, 'from_box')]
  return { value: { everyM: every.value * unit, fromBoxM: fromBox.value * unit }, rests: every.rests }
}

function bendRadiusM(book: Book, of: { readonly kind: string; readonly trade: string }): Cited<number> {
  const id = `${book.set}-bend-radius`
  const cell = numberAt(book, id, racewayKey(book, id, of), 'radius')
  return { value: cell.value * siOf(tableOf(book, id).units.radius), rests: cell.rests }
}

function sensorAloneAllowed(book: Book): Cited<boolean> {
  const cell = wordAt(book, `${book.set}-build`, 'sensor-alone', 'value')
  return { value: oneOf('sensor-alone', cell.value) === 'yes', rests: cell.rests }
}

function egress(book: Book): BuildRules['egress'] {
  const [width, height] = [siFigure(book, 'door-width'), siFigure(book, 'door-height')]
  const second = numberOrNull(book, `${book.set}-build`, 'second-way-above', 'value')
  return {
    value: {
      doorWidthM: width.value,
      doorHeightM: height.value,
      secondAboveM: second === null ? null : siFigure(book, 'second-way-above').value,
    },
    rests: width.rests,
  }
}

function cordThroughWall(book: Book, way: ExitWay): ReturnType<BuildRules['cordThroughWall']> {
  const id = `${book.set}-cord-exit`
  const allowed = wordAt(book, id, way, 'allowed')
  return { value: { allowed: oneOf('allowed', allowed.value), said: wordAt(book, id, way, 'said').value }, rests: allowed.rests }
}

function securing(book: Book): BuildRules['securing'] {
  const get = (column: string): number => numberAt(book, 'securing', book.set, column).value
  const method = wordAt(book, 'securing', book.set, 'method')
  return {
    value: {
      method: oneOf('method', method.value),
      forwardG: get('forward'),
      rearG: get('rear'),
      sideG: get('side'),
      sideTipG: get('side_tip'),
      upFrac: get('up'),
    },
    rests: numberAt(book, 'securing', book.set, 'forward').rests,
  }
}

function axleGroupKg(book: Book): BuildRules['axleGroupKg'] {
  const [single, tandem] = [siFigure(book, 'axle-single'), siFigure(book, 'axle-tandem')]
  return {
    value: { single: single.value, tandem: tandem.value },
    rests: { ...single.rests, provenance: weakest(single.rests.provenance, tandem.rests.provenance) },
  }
}
