import { type Finding, formatNumber, formatQuantity } from '../kernel/index.ts'
import { type Material, materialsOf, type Prices, pricedMaterials } from '../parts/index.ts'
import type { Standing } from './change-list-box.ts'
import { addedLines, circuitLines, cordLines, spareLines } from './change-list-circuit-lines.ts'
import { type Asked, amps, codesOf, kA, type Line, tags, type Written } from './change-list-line.ts'
import { boxMaterials, keptShock, keyMaterials } from './change-list-search.ts'

/** Every line of the list: panel first, then circuits, cords, what stayed at the old place, its state, and what nobody knows. */
export function linesOf(
  of: Standing,
  keys: ReadonlySet<string>,
  prices: Prices,
  stands: readonly Finding[],
  after: readonly Finding[],
): readonly Line[] {
  const asked = { of, keys, prices, stands, after }
  return [panelLines, circuitLines, addedLines, spareLines, cordLines, placeLines, stateLines, unknownLines]
    .flatMap((write) => write(asked))
    .map(({ buys, ...line }) => ({
      ...{ codes: [], quantity: 1, per: 'each' as const, priceUnknown: false, keys: [] },
      ...line,
      material: buys === undefined || buys.length === 0 ? null : pricedMaterials(merged(buys), prices),
    }))
}

/** The same thing for the same use once. */
function merged(needs: readonly Material[]): readonly Material[] {
  const sums = new Map<string, Material>()
  for (const need of needs) {
    const key = `${need.id}|${need.for}`
    sums.set(key, { ...need, quantity: (sums.get(key)?.quantity ?? 0) + need.quantity })
  }
  return [...sums.values()].map((m) => ({ ...m, quantity: Math.round(m.quantity * 10) / 10 }))
}

function panelLines(asked: Asked): readonly Written[] {
  const { of, keys } = asked
  const { built, whole, job } = of
  const { panel } = whole
  const had = `${built.system}, ${amps(built.serviceA)}, ${built.ways} ways, ${kA(built.interruptingKA)}`
  const main = `${amps(built.serviceA)}, ${of.legs} poles, ${kA(built.interruptingKA)}`
  const faults = codesOf(asked, /^faults\/(built-interrupting|interrupting|bus-withstand)$/, ['fails'])
  const panelNew = keys.has('panel')
  const lines: Written[] = [
    panelNew
      ? {
          ...{
            tag: 'panel',
            component: 'panel',
            action: 'replace',
            asBuilt: had,
            keys: ['panel'],
            buys: keyMaterials(of, 'panel', keys),
          },
          needed: `${job.system}, ${amps(panel.busA)}, ${panel.ways} ways, ${kA(panel.interruptingKA)}`,
          why: 'volts, lines, ways and the highest fault of the new place',
          codes: [...codesOf(asked, /\/built-(phases|neutral|ways)$/, ['fails', 'unknown']), ...faults],
        }
      : {
          ...{ tag: 'panel', component: 'panel', action: 'keep', asBuilt: had, needed: 'as built' },
          why: 'lines, ways and interrupting rating are enough here',
        },
    keys.has('main')
      ? {
          ...{
            tag: 'main',
            component: 'main',
            action: 'replace',
            asBuilt: main,
            keys: ['main'],
            buys: keyMaterials(of, 'main', keys),
          },
          needed: `${amps(panel.main.ratingA)}, ${panel.main.poles} poles, ${kA(panel.main.interruptingKA)}`,
          why: panelNew
            ? 'a main is listed for its panel; poles and highest fault here'
            : 'rating, or highest fault, of the new place',
          codes: [...codesOf(asked, /^circuits\/(main-|protected|feed)/, ['fails']), ...faults],
        }
      : {
          ...{ tag: 'main', component: 'main', action: 'keep', asBuilt: main, needed: 'as built' },
          why: 'rating and interrupting rating are enough here',
        },
  ]
  const labels = boxMaterials(of, 'labels')
  return [
    ...lines,
    {
      ...{ tag: 'labels', component: 'labels and colours', action: 'relabel', buys: labels, per: 'set' },
      asBuilt: `for ${built.system}, rules ${built.rulesWhenBuilt}`,
      needed: `for ${job.system}, rules ${job.rules.set}`,
      why: 'volts, sources, ways and colours are told where a cover comes off; colours as built were not told',
    },
    {
      ...{
        tag: 'bond',
        component: 'bond of neutral and earth',
        action: 'test or measure',
        asBuilt: built.neutralBond,
        needed: panel.bond,
      },
      why: 'one bond and no second one; prove it before the supply is connected',
      priceUnknown: false,
    },
  ]
}

/** What stays in the ground or on the wall of the old place, and what the box never had. */
function placeLines(asked: Asked): readonly Written[] {
  const { of } = asked
  const { whole, built } = of
  const line = (tag: string, component: string, needed: string, why: string, uses: readonly string[]): Written => ({
    ...{
      tag,
      component,
      action: 'add',
      asBuilt: 'none told',
      needed,
      why,
      per: 'set',
      buys: materialsOf(whole).filter((m) => uses.includes(m.for) && !m.id.startsWith('work/')),
    },
  })
  const feed = whole.fedFrom?.run ?? whole.panel.feed
  const t = whole.transformer
  return [
    line(
      'feed',
      'feed',
      `${feed.line.size}, ${formatQuantity(feed.lengthM, 'm')}`,
      'the service conductors stay at the old place',
      ['feed', 'feeder from the other box'],
    ),
    {
      ...line(
        'electrode',
        'electrode',
        whole.electrode.kind === 'rods'
          ? `${whole.electrode.count} rods of ${formatQuantity(whole.electrode.lengthM, 'm')}`
          : `ring of ${formatQuantity(whole.electrode.lengthM, 'm')}`,
        'the old one stays in the old ground',
        ['electrode'],
      ),
      asBuilt: built.electrodeOhm === null ? 'none told' : `${formatQuantity(built.electrodeOhm, 'Ohm')} at the old place`,
    },
    {
      ...{
        tag: 'electrode',
        component: 'electrode',
        action: 'test or measure',
        asBuilt: 'nothing measured here',
        needed: 'read after driving, and again in frost',
      },
      ...{ why: 'a reading at another place says nothing in this soil', codes: codesOf(asked, /^faults\/old-electrode$/) },
    },
    ...(t === null
      ? []
      : [
          line('transformer', 'own transformer', formatQuantity(t.kVA * 1000, 'VA'), 'this supply asks it', [
            'own transformer',
            'primary of the transformer',
          ]),
        ]),
    ...(whole.staging.control === 'none'
      ? []
      : [line('control', 'control of starts', whole.staging.control, 'this service asks it', ['staging'])]),
    ...(whole.transfer === 'none'
      ? []
      : [line('transfer', 'transfer', whole.transfer, 'two sources feed it here', ['transfer'])]),
  ]
}

function stateLines(asked: Asked): readonly Written[] {
  const { of, keys } = asked
  const { built, job } = of
  const cold = keys.has('outlet devices')
  const shock = keptShock(of, keys)
  return [
    ...(cold
      ? [
          {
            ...{
              tag: tags(shock),
              component: 'residual devices in the outlets',
              action: 'replace' as const,
              quantity: Math.max(1, shock.length),
            },
            asBuilt: `rated down to ${formatNumber(built.outletDeviceMinC ?? 0)} °C`,
            needed: `rated by the maker in writing to ${formatNumber(job.site.extremeMinC ?? job.site.designMinC ?? 0)} °C or lower, or in the panel where it is kept warm`,
            why: 'too cold, they may not trip',
            codes: codesOf(asked, /\/(built-outlet-cold|residual-cold)$/),
            ...{ keys: ['outlet devices'], buys: keyMaterials(of, 'outlet devices', keys), priceUnknown: shock.length === 0 },
          },
        ]
      : []),
    ...(keys.has('cord exits')
      ? [
          {
            ...{ tag: 'cord exits', component: 'openings for cords', action: 'replace' as const, per: 'set' as const },
            asBuilt: `the lowest ${formatQuantity(job.builtBody?.lowestExitM ?? Number.NaN, 'm')} up`,
            needed: `${formatQuantity(of.exitsM ?? Number.NaN, 'm')} up at least, the old ones closed`,
            why: 'cords and covers under the snow ice over and cannot be unplugged',
            codes: codesOf(asked, /^skin\/built-exit-height$/),
            ...{ keys: ['cord exits'], priceUnknown: true },
          },
        ]
      : []),
    ...built.defects.map((said, i) => ({
      ...{
        tag: `defect ${i + 1}`,
        component: 'open defect',
        action: 'replace' as const,
        asBuilt: said.replace(/\.$/, ''),
        needed: 'mended and tested',
      },
      ...{
        why: 'not to be switched on as it stands',
        codes: codesOf(asked, /\/(built|open)-defects$/),
        keys: [`defect/${i}`],
        priceUnknown: true,
      },
    })),
    {
      ...{
        tag: 'full test',
        component: 'the whole box',
        action: 'test or measure',
        needed: 'a full test when all else is done, by a licensed person',
      },
      asBuilt: built.lastFullTestMonthsAgo === null ? 'never told' : `${formatNumber(built.lastFullTestMonthsAgo)} months ago`,
      ...{
        why: 'a full test after each move and each change',
        codes: codesOf(asked, /\/built-test$/),
        keys: ['full test'],
        priceUnknown: true,
      },
    },
  ]
}

/** What nobody has told or judged: to be looked at, never taken as OK. */
function unknownLines(asked: Asked): readonly Written[] {
  const { of, keys, after } = asked
  const unknown = (code: RegExp) => after.filter((f) => f.verdict === 'unknown' && code.test(f.code))
  const kept = [...of.rowOf.keys()].filter((id) => !keys.has(`${id}/wire`))
  const line = (
    tag: string,
    component: string,
    asBuilt: string,
    needed: string,
    why: string,
    codes: readonly string[] = [],
  ): Written => ({
    ...{ tag, component, action: 'test or measure', asBuilt, needed, why, codes, priceUnknown: true },
  })
  const outletCold = unknown(/\/built-outlet-cold$/)
  return [
    ...(kept.length === 0
      ? []
      : [
          line(
            kept.toSorted().join(', '),
            'kept conductors',
            'insulation, neutral, protective conductor, raceway: not told',
            'print read, sizes and insulation measured',
            'taken here as of the line’s size and the fresh design’s insulation; unknown until seen',
          ),
        ]),
    ...unknown(/\/built-neutral$/).map((f) =>
      line(
        'neutral',
        'neutral of the panel',
        'size not told',
        `${f.demand?.value ?? ''} A`,
        'on two lines of a wye the neutral carries as much as a line',
        [f.code],
      ),
    ),
    ...unknown(/\/built-approval$/).map((f) =>
      line(
        'approval',
        'approval',
        of.built.approval,
        `looked at under rules ${of.job.rules.set}`,
        'whose mark counts is the inspector’s to say',
        [f.code],
      ),
    ),
    ...(outletCold.length === 0
      ? []
      : [
          line(
            'outlet devices',
            'residual devices in the cold',
            'rating not told',
            'lowest temperature from the maker, in writing',
            'unknown until told',
            ['circuits/built-outlet-cold'],
          ),
        ]),
    line(
      'enclosure',
      'steel, paint, insulation, vents, heater, mass, plate',
      'as told in the job',
      'looked at for the new place',
      'the questions skin, air, haul and papers judge them',
    ),
  ]
}
