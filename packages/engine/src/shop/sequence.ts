import type { SnowFramePlan } from '../haul/result.ts'
import type { BoxBuild } from '../job/index.ts'
import type { SkinStep } from '../skin/result.ts'
import { amount } from './figures.ts'
import { sumHours } from './hours/units.ts'
import type { BuildStep, HoursSheet } from './result.ts'
import { frameSteps } from './snow-frame.ts'

type Plain = Omit<BuildStep, 'hours'>

/**
 * How the box is built, in the trade's order, with what nobody may pass until it is signed. The hours of a step are those of its lines in
 * the hours sheet.
 * @source sequence and hold points of the trade. Provenance: common practice
 */
export function buildSteps(of: {
  readonly build: Pick<BoxBuild, 'skin' | 'fit'>
  readonly skinSteps: readonly SkinStep[]
  readonly hours: HoursSheet
  readonly paintM2: number
  readonly snowFrame: SnowFramePlan | null
}): readonly BuildStep[] {
  return steps(of).map((s) => {
    const own = of.hours.lines.filter((l) => l.step === s.id)
    return { ...s, hours: own.length === 0 ? null : sumHours(own.map((l) => l.hours)) }
  })
}

const caution = (steps: readonly SkinStep[], word: RegExp): string | null =>
  steps.find((s) => word.test(s.words))?.caution ?? null

function steps(of: {
  readonly build: Pick<BoxBuild, 'skin' | 'fit'>
  readonly skinSteps: readonly SkinStep[]
  readonly paintM2: number
  readonly snowFrame: SnowFramePlan | null
}): readonly Plain[] {
  const { skin, fit } = of.build
  const framed = skin.openings.filter((o) => o.frame !== null).length
  const water = Math.round(amount('wash water') * of.paintM2)
  const over = frameSteps(of.snowFrame)
  const lining = skin.finish.foam ? 'Floor, spray foam and lining' : 'Floor and whatever lining the owner wants'
  return [
    plain(
      '1',
      "the shop's helper",
      'Receive and survey the box: plate, dents, rust, moisture of the floor; measure pitch and first rib of each side, tare and photographs. Write them on the hole sheet before anything is scribed.',
      'Confirm that nobody is inside before a door is latched; prop the doors against wind.',
    ),
    plain(
      '1b',
      "the shop's helper",
      `Sweep, scrape and wash inside and out: about ${water} L of water at up to ${amount('wash pressure')} bar, the washer on a circuit of the shop with a residual-current or ground-fault device of its own, its cord in one piece and out of the water. Let the floor dry and measure it again; mask what stays bare.`,
      'Wash before anything electrical hangs in the box. The washer’s plug and cord stay dry; a device that trips has done its work: unplug, dry and test. Floor treatment and old coatings are poisonous: catch the water.',
    ),
    plain(
      '2',
      "the shop's welder",
      `Scribe the ${skin.openings.length} openings from the datum corner of each side, outside, and check them from inside against the channel; cut in the order of the hole sheet.`,
      caution(of.skinSteps, /Scribe/) ?? 'Nothing is live in the wall: prove it before the first cut.',
    ),
    plain(
      '3',
      "the shop's welder",
      `Weld ${framed} frames, collars, pads and the feet of the channel; remove the edge of the plywood or shield it. Grind, prime both faces and the cut edge.`,
      caution(of.skinSteps, /Strip/) ??
        'Coatings and floor treatment give poisonous fume: strip, ventilate, wear breathing protection, fire watch 60 min after the last heat.',
      { what: 'Welds looked at, gauged and marked on the weld map', signs: "the shop's welding supervisor" },
    ),
    ...over.seats,
    plain(
      '4',
      "the shop's helper",
      'Leak test: hose each face 5 min from 3 m, then shut the doors and look for light from inside.',
      'One person inside, one outside at the door, doors not latched.',
      { what: 'No water and no light inside', signs: "the shop's foreman" },
    ),
    plain(
      '5',
      'the painter',
      'Blast or abrade, prime, two top coats, roof coat; touch up what welding burnt. All paint is dry before wire comes in.',
      'Solvent and dust: ventilate, wear breathing protection, no flame and nothing that sparks.',
    ),
    plain(
      '6',
      "the customer's own framing crew",
      `${lining}: whoever frames for the customer works now, before the channel; leaves the clear bands and the fixing points free, and no screw in a wall behind raceways. If the customer has no crew, the shop does it and counts the hours.`,
      'Non-combustible lining behind the panel. No storage of what burns.',
    ),
    plain(
      '7',
      "the shop's helper",
      `Hang ${fit.strut.length} pieces of channel by the wall sheets; torque every nut by the torque sheet; join channel, frame and doors to the earth bar.`,
      'Heavy things are lifted by two, or by a hoist. Paint does not conduct: scrape, join, coat again.',
    ),
    plain(
      '8',
      'the electrician',
      `Hang the gear, then bend and fix ${fit.raceways.length} raceways by the bend sheets; ream every end.`,
      'Keep swarf out of the gear: cover it before anything is drilled.',
    ),
    plain(
      '9',
      'the electrician',
      'Pull wire by the pull list, mark both ends, land and torque by the maker’s sheet with a calibrated tool, and mark each screw that was torqued. A torque that is not on the maker’s sheet is asked for, never guessed.',
      'No supply is connected. Isolate, lock, prove dead before any enclosure that was ever live is opened.',
      { what: 'Everything open to be looked at: raceways, boxes, bonds, torque log', signs: 'the inspector' },
    ),
    plain(
      '10',
      'the electrician',
      'Vents, fan, heater, lights and cords; drip loops, hoods and mesh; plug every spare entry.',
      'Edges of cut sheet are sharp; nothing is energised yet.',
    ),
    plain(
      '11',
      'the electrician',
      'Tests in the shop: dead tests first, and only when they hold, energised on the shop’s supply, one circuit at a time. They do not stand for the tests on site.',
      'Panel covers on. Supply conductors ahead of the main stay live when the main is off. Never back-feed through a receptacle.',
      { what: 'Test sheet complete, every value against its limit', signs: 'the licensed electrician' },
    ),
    plain(
      '12',
      'the inspector',
      'Field evaluation or inspection, with the label on the finished box.',
      'Covers that are opened for the inspector: isolate, lock, prove dead first.',
      { what: 'Inspection passed and label on', signs: 'the authority having jurisdiction, or the body it accepts' },
    ),
    plain(
      '13',
      "the shop's helper",
      'Weigh, find the centre of gravity, photograph each wall and the roof, draw what was built differently.',
      'Stay from under the load and from between it and anything fixed.',
    ),
    ...over.trial,
    plain(
      '14',
      "the shop's helper",
      'Crate what is loose, breakers off, shut vents, desiccant in, seal, load.',
      'Confirm that nobody is inside before the doors are latched.',
    ),
  ]
}

const plain = (
  id: string,
  who: BuildStep['who'],
  words: string,
  caution: string | null,
  hold: BuildStep['hold'] = null,
): Plain => ({ id, words, who, hold, caution })
