import { type OneLine, type OneLineBranch, oneLine, type Scene, SYMBOL_SETS, type SymbolName } from '@plugstead/drawings'
import { formatQuantity, type Verdict, worst } from '@plugstead/engine/kernel'
import type { Block, Sheet } from '../content.ts'
import { type BookInput, type BoxReach, chartWidth } from '../results.ts'
import { boxName } from '../words.ts'
import { sizeWords } from './circuits.ts'

/** Source, transformer, main, bus, branches, cords and machines, with volts at the panel and at each plug, everything on. */
export function oneLineSheets(input: BookInput): readonly Sheet[] {
  const boxes = input.assessment.results.circuits.boxes
  return boxes.flatMap((box) => {
    const design = input.design.boxes.find((b) => b.box === box.box && b.phase === box.phase)
    if (design === undefined) return []
    const reach = reachOf(input, box)
    const scenes = oneLine(diagramOf(input, box, design, reach))
    const blocks: Block[] = [
      {
        k: 'para',
        small: true,
        text: `Heavier line, more ampere. First leg solid, second long dash, third dash and dot; rope: cord. Volts with everything on, weak end of the source${reach === undefined ? '' : ` (${reach.mode}, ${reach.offer})`}. Symbols: ${input.rules.symbols}.`,
      },
      ...scenes.map((scene): Block => ({ k: 'drawing', scene })),
    ]
    return [
      {
        part: 'circuits',
        head: 'One-line diagram, with volts',
        sub: boxName(box, boxes),
        scale: 'not to scale',
        key: true,
        blocks,
      },
    ]
  })
}

/** The same diagrams by themselves, box by box and phase by phase. */
export function oneLineScenes(
  input: BookInput,
): readonly { readonly box: string; readonly phase: string; readonly scenes: readonly Scene[] }[] {
  return input.assessment.results.circuits.boxes.flatMap((box) => {
    const design = input.design.boxes.find((b) => b.box === box.box && b.phase === box.phase)
    return design === undefined
      ? []
      : [{ box: box.box, phase: box.phase, scenes: oneLine(diagramOf(input, box, design, reachOf(input, box))) }]
  })
}

type BoxDesign = BookInput['design']['boxes'][number]
type BoxCircuits = BookInput['assessment']['results']['circuits']['boxes'][number]

const reachOf = (input: BookInput, box: { readonly box: string; readonly phase: string }): BoxReach | undefined => {
  const own = input.assessment.results.reach.boxes.filter((r) => r.box === box.box && r.phase === box.phase)
  return own.find((r) => r.mode === 'network') ?? own[0]
}

function diagramOf(input: BookInput, box: BoxCircuits, design: BoxDesign, reach: BoxReach | undefined): OneLine {
  const offer = input.job.offers.find((o) => o.id === design.offer)
  const run = design.panel.feed
  const wires = (r: typeof run): string =>
    `${r.sets > 1 ? `${r.sets} × ` : ''}${sizeWords(r.line.size)} ${r.line.metal}, ${formatQuantity(r.lengthM, 'm')}${r.raceway === null ? '' : `, ${r.raceway.kind} ${r.raceway.trade}`}`
  const trunk: { symbol: SymbolName; words: string[] }[] = []
  if (design.fedFrom !== null) {
    trunk.push({
      symbol: 'source',
      words: [`from box ${design.fedFrom.box}`, `${design.fedFrom.device.ratingA} A, ${wires(design.fedFrom.run)}`],
    })
  } else if (offer?.kind === 'generator') {
    trunk.push({
      symbol: 'generator',
      words: [
        `${design.offer}, ${offer.what}`,
        offer.generator === undefined ? '' : `${offer.generator.sets} × ${formatQuantity(offer.generator.ratedKVA, 'kVA')}`,
      ],
    })
  } else {
    trunk.push({ symbol: 'source', words: [`${design.offer}, ${offer?.what ?? 'supply'}`] })
    if (offer?.transformer !== undefined && offer.transformer.own !== true)
      trunk.push({ symbol: 'transformer', words: [`${formatQuantity(offer.transformer.kVA, 'kVA')}, of the supplier`] })
    if (offer?.kind === 'utility') trunk.push({ symbol: 'meter', words: [`service ${design.serviceA} A`] })
  }
  if (design.transformer !== null) {
    const t = design.transformer
    trunk.push({ symbol: 'breaker', words: [`${t.primary.ratingA} A`, wires(t.primaryRun)] })
    trunk.push({
      symbol: 'transformer',
      words: [
        `own, ${formatQuantity(t.kVA, 'kVA')}, ${formatQuantity(t.impedancePct, '%')}`,
        `${formatQuantity(t.primaryV, 'V')} to ${formatQuantity(t.secondaryV, 'V')}`,
      ],
    })
  }
  trunk.push({ symbol: kindOf(design.panel.main.family), words: [`main ${design.panel.main.ratingA} A`, `feed ${wires(run)}`] })
  const all = reach?.states[0]
  const volts = Object.entries(all?.panelV ?? {}).map(([leg, v]) => `${leg} ${formatQuantity(v, 'V')}`)
  return {
    widthMm: chartWidth(input),
    symbols: SYMBOL_SETS[input.rules.symbols],
    trunk,
    trunkA: design.serviceA,
    bus: [
      `panel ${box.subject}, ${design.system}, bus ${design.panel.busA} A`,
      volts.length === 0 ? 'volts not solved' : `at the bus ${volts.join(', ')}`,
    ],
    earthed: design.panel.bond === 'neutral bonded here',
    legs: box.legs.map((l) => l.leg),
    branches: box.circuits.map(
      (c): OneLineBranch => ({
        ways: c.ways.join('+'),
        device: `${c.deviceA} A`,
        deviceKind: kindOf(c.deviceFamily),
        wire: sizeWords(c.line),
        legs: c.legs,
        currentA: c.currentA,
        of: c.id,
        outlet: c.own === 'spare' ? 'spare' : c.outlet === '' || c.outlet === 'hard-wired' ? 'wired' : c.outlet,
        wired: c.outlet === '' || c.outlet === 'hard-wired',
        ends: loadsOf(c).map((tag) => {
          const plug = input.job.plugs.find((p) => p.tag === tag)
          const at = all?.plugs.find((p) => p.plug === tag)
          return {
            words:
              at !== undefined
                ? `${shortName(tag)} ${formatQuantity(at.voltageV, 'V')}`
                : c.own === null
                  ? `${tag}, volts unknown`
                  : shortName(tag),
            kind: plug?.kind === 'heater' ? ('heater' as const) : plug?.kind === 'motor' ? ('motor' as const) : ('load' as const),
            of: tag,
            cord: (plug?.cordM ?? 0) > 0,
            verdict: verdictOf(input, tag, c.own !== null),
          }
        }),
      }),
    ),
  }
}

/** The plugs of a circuit; what is the box's own stands under the circuit's name. */
const loadsOf = (c: BoxCircuits['circuits'][number]): readonly string[] =>
  c.plugs.length > 0 || c.own === null || c.own === 'spare' ? c.plugs : [c.id]

const shortName = (tag: string): string => tag.replace(/^own-/, 'box ')

const kindOf = (family: string): 'breaker' | 'fuse' => (/^g[GL]|fuse/i.test(family) ? 'fuse' : 'breaker')

function verdictOf(input: BookInput, tag: string, own: boolean): Verdict {
  const found = input.assessment.findings.filter((f) => f.question === 'reach' && f.subject === tag)
  return found.length === 0 ? (own ? 'holds' : 'unknown') : worst(found.map((f) => f.verdict))
}
