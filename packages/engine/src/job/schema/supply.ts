import { z } from 'zod'
import {
  choice,
  fraction,
  group,
  money,
  plain,
  quantities,
  quantity,
  range,
  readBy,
  special,
  system,
  tag,
  text,
  yesNo,
} from '../fields.ts'
import { problem, shown } from '../problems.ts'
import { window } from '../times.ts'

const volts = range(1, 150_000, '1 V to 150 kV')
const amperes = range(0, 20_000, '0 to 20 kA')
const kva = range(50, 1e8, '0.05 kVA to 100 MVA')
const share = range(0, 1, '0 to 100 %')

export const phasesField = (said: string, absent: string) =>
  special<1 | 3>(
    (value) =>
      value === 1 || value === 3
        ? { ok: true, value }
        : { ok: false, problems: [problem('job/not-a-choice', shown(value), null, ['1', '3'])] },
    { type: 'integer', unit: 'none', range: '1 | 3', examples: [1, 3] },
    { said, need: 'assumed', absent },
  )

const transformer = z
  .strictObject({
    rating: quantity('apparent power', kva, {
      said: 'Rating on its plate.',
      need: 'must',
      absent: 'the highest fault level is unknown',
    }),
    impedance: quantity('share', range(0.002, 0.3, '0.2 % to 30 %'), {
      said: 'Impedance on its plate; the tolerance of a plate is added where the fault level is judged.',
      need: 'bounded',
      absent: 'the range usual for its size and kind',
    }).optional(),
    'x-over-r': plain(range(0.1, 60, '0.1 to 60'), false, {
      said: 'Reactance over resistance.',
      need: 'bounded',
      absent: 'the range usual for its size and kind',
    }).optional(),
    phases: phasesField('Phases of the transformer or bank.', 'those of the offer’s system').optional(),
    'loss-no-load': quantity('power', range(0, 1e6, '0 to 1 MW'), {
      said: 'Loss with no load.',
      need: 'assumed',
      absent: 'not counted: it is the supplier’s, or unknown',
    }).optional(),
    'loss-full-load': quantity('power', range(0, 1e7, '0 to 10 MW'), {
      said: 'Total loss at full load, the no-load loss included.',
      need: 'assumed',
      absent: 'not counted: it is the supplier’s, or unknown',
    }).optional(),
  })
  .meta(
    group('Transformer behind the offer.', 'bounded', 'the fault level rests on a range, or on the supplier’s written figure'),
  )

const generator = z
  .strictObject({
    'rated-power': quantity('power', range(100, 1e8, '100 W to 100 MW'), {
      said: 'Prime power of each set, engine limit.',
      need: 'assumed',
      absent: '0.8 of its rated kVA',
    }).optional(),
    rated: quantity('apparent power', kva, {
      said: 'Rated apparent power of each set, alternator limit.',
      need: 'assumed',
      absent: 'its rated power over 0.8',
    }).optional(),
    sets: plain(range(1, 20, '1 to 20'), true, {
      said: 'How many sets stand there; one runs unless the note says otherwise.',
      need: 'assumed',
      absent: '1',
    }).optional(),
    subtransient: quantity('share', range(0.03, 0.6, '3 % to 60 %'), {
      said: 'Subtransient reactance Xd″ on its own rating.',
      need: 'bounded',
      absent: 'the range usual for its size',
    }).optional(),
    turbo: yesNo({ said: 'Turbocharged: derates later with altitude.', need: 'bounded', absent: 'judged without' }).optional(),
    'boost-excitation': yesNo({
      said: 'Boost or permanent-magnet excitation holds the fault current up.',
      need: 'bounded',
      absent: 'judged without',
    }).optional(),
    'neutral-bonded-at-set': yesNo({
      said: 'Neutral is bonded to the frame at the set.',
      need: 'must',
      absent: 'supply answers unknown about the number of bonds',
    }).optional(),
    fuel: text({ said: 'Fuel.', need: 'assumed', absent: 'diesel' }, 40).optional(),
    tank: quantity('volume', range(0, 1e6, '0 to 1 000 000 L'), {
      said: 'Day tank.',
      need: 'must',
      absent: 'refilling is not judged',
      later: ['keep'],
    }).optional(),
    'noise-limit': text({
      said: 'Noise limit at a named place.',
      need: 'must',
      absent: 'place answers unknown about noise',
      later: ['place', 'papers'],
    }).optional(),
  })
  .meta(group('Generator set.', 'must', 'a generator without figures is not compared'))

const fault = z
  .strictObject({
    current: quantity('current', range(10, 300_000, '10 A to 300 kA'), {
      said: 'Highest prospective fault current at the point of supply.',
      need: 'must',
      absent: 'the line cannot be read',
    }),
    of: choice(['between lines', 'any kind'], {
      said: 'Which fault the figure is of: between all lines, or the highest of any kind, line to neutral included.',
      need: 'assumed',
      absent: 'between lines; on a centre tap a fault to neutral is then taken higher',
    }).optional(),
    by: text({ said: 'Who wrote it, and when.', need: 'must', absent: 'the line cannot be read' }, 200),
  })
  .meta(
    group(
      'Fault level the supplier gave in writing.',
      'bounded',
      'an infinite source behind the transformer for interrupting, the weakest plausible source for clearing',
    ),
  )

export const EARTHINGS = ['TN-S', 'TN-C-S', 'TT', 'IT', 'service bond'] as const

export const offer = z
  .strictObject({
    id: tag({ said: 'Name of the offer.', need: 'assumed', absent: 'by kind and order: utility-1' }).optional(),
    kind: choice(['utility', 'generator', 'neighbour'], {
      said: 'Who would feed it.',
      need: 'must',
      absent: 'the line cannot be read',
    }),
    what: text({ said: 'What it is, in words.', need: 'assumed', absent: 'the kind' }).optional(),
    available: yesNo({ said: 'Whether it can be had at all.', need: 'assumed', absent: 'yes' }).optional(),
    system: system({ said: 'Voltage system at the point of supply.', need: 'assumed', absent: 'that of the job' }).optional(),
    'supply-voltage': quantity('voltage', volts, {
      said: 'Voltage of the line it comes from, when a transformer belongs to the offer.',
      need: 'must',
      absent: 'not judged',
    }).optional(),
    service: quantities('current', amperes, {
      said: 'Service sizes offered.',
      need: 'must',
      absent: 'supply answers unknown for this offer',
    }).optional(),
    transformer: transformer.optional(),
    fault: fault.optional(),
    distance: quantity('length', range(0, 50_000, '0 to 50 km'), {
      said: 'From the point of supply to the box: service drop, run or feeder.',
      need: 'assumed',
      absent: '30 m',
    }).optional(),
    overhead: yesNo({ said: 'Overhead, not in the ground.', need: 'bounded', absent: 'judged both ways' }).optional(),
    'lead-time': quantity('time', range(0, 10 * 366 * 86_400, '0 to 10 years'), {
      said: 'From order to live.',
      need: 'must',
      absent: 'its date is unknown',
    }).optional(),
    'one-off': money(null, { said: 'Paid once.', need: 'must', absent: 'its cost is unknown' }).optional(),
    hire: money('28 days', { said: 'Hire for 28 days, for each set.', need: 'must', absent: 'its cost is unknown' }).optional(),
    energy: money('kWh', {
      said: 'Price of energy from this offer, when it differs from the tariff.',
      need: 'assumed',
      absent: 'the tariff',
    }).optional(),
    generator: generator.optional(),
    spare: quantity('current', amperes, {
      said: 'Spare current a neighbour lends, in each phase or leg.',
      need: 'must',
      absent: 'what can be taken is unknown',
    }).optional(),
    'spare-power': quantity('apparent power', range(0, 1e8, '0 to 100 MVA'), {
      said: 'Spare apparent power a neighbour lends, all phases together.',
      need: 'must',
      absent: 'what can be taken is unknown',
    }).optional(),
    'spare-phases': phasesField('Phases in which the spare current may be taken.', 'those of the offer’s system').optional(),
    earthing: choice(EARTHINGS, {
      said: 'Earthing system it brings.',
      need: 'must',
      absent: 'us and ca: the bond of the service; a generator: planned with the box; else supply and faults answer unknown',
    }).optional(),
    'earthing-forbidden': yesNo({ said: 'Its earth may not be used at the box.', need: 'assumed', absent: 'no' }).optional(),
    'quiet-hours': window({ said: 'Hours in which it may not run.', need: 'assumed', absent: 'none' }).optional(),
    'notice-to-cut': quantity('time', range(0, 366 * 86_400, '0 to a year'), {
      said: 'Notice at which it may be cut off.',
      need: 'assumed',
      absent: 'not cut off',
    }).optional(),
    note: text({ said: 'Anything else: meter place, conditions.', need: 'assumed', absent: 'nothing' }).optional(),
  })
  .meta(group('One offer of supply, side by side with the others.', 'must', 'supply answers unknown'))

const ownTransformer = z
  .strictObject({
    rating: quantity('apparent power', kva, { said: 'Rating.', need: 'must', absent: 'the line cannot be read' }),
    impedance: quantity('share', range(0.002, 0.3, '0.2 % to 30 %'), {
      said: 'Impedance.',
      need: 'bounded',
      absent: 'the range usual for a dry transformer of its size',
    }).optional(),
    'x-over-r': plain(range(0.1, 60, '0.1 to 60'), false, {
      said: 'Reactance over resistance.',
      need: 'bounded',
      absent: 'the range usual for a dry transformer of its size',
    }).optional(),
    phases: phasesField('Phases.', '3').optional(),
    'loss-no-load': quantity('power', range(0, 1e5, '0 to 100 kW'), {
      said: 'Loss with no load, all day.',
      need: 'must',
      absent: 'its heat and energy are unknown',
    }).optional(),
    'loss-full-load': quantity('power', range(0, 1e6, '0 to 1 MW'), {
      said: 'Total loss at full load, the no-load loss included: load loss is the difference.',
      need: 'must',
      absent: 'its heat and energy are unknown',
    }).optional(),
    mass: quantity('mass', range(1, 50_000, '1 kg to 50 t'), {
      said: 'Mass.',
      need: 'must',
      absent: 'haul answers unknown',
      ...readBy('haul', 'fit'),
    }).optional(),
  })
  .meta(group('A transformer of the box’s own that may be chosen.', 'assumed', 'none'))

const block = z
  .strictObject({
    'up-to': quantity('energy', range(0, 1e15, '0 or more'), {
      said: 'Energy a month up to which this price holds; the last block has none.',
      need: 'assumed',
      absent: 'without end',
    }).optional(),
    price: money('kWh', { said: 'Price in this block.', need: 'must', absent: 'the line cannot be read' }),
  })
  .meta(group('One block of the energy price.', 'must', 'the line cannot be read'))

const tariff = z
  .strictObject({
    fixed: money('month', {
      said: 'Fixed charge a month.',
      need: 'assumed',
      absent: 'none is counted, and the bill says so',
    }).optional(),
    energy: money('kWh', {
      said: 'One price for all energy.',
      need: 'must',
      absent: 'the bill is unknown, unless blocks are given',
    }).optional(),
    blocks: z
      .array(block)
      .meta(group('Prices by block of monthly energy, rising.', 'assumed', 'one price for all'))
      .optional(),
    'demand-kw': money('kW month', {
      said: 'Demand charge on the highest window mean of kW in the month.',
      need: 'assumed',
      absent: 'none is counted, and the bill says so',
    }).optional(),
    'demand-kva': money('kVA month', {
      said: 'Demand charge on the highest window mean of kVA in the month.',
      need: 'assumed',
      absent: 'none is counted, and the bill says so',
    }).optional(),
    'demand-window': quantity('time', range(60, 14_400, '1 min to 4 h'), {
      said: 'Length of the window over which demand is averaged.',
      need: 'assumed',
      absent: '15 min in us and ca, 30 min in intl',
    }).optional(),
    ratchet: fraction(share, {
      said: 'Share of the highest demand of the last twelve months that is billed at least.',
      need: 'assumed',
      absent: 'none',
    }).optional(),
    'power-factor-floor': fraction(range(0, 1, '0 to 1'), {
      said: 'Power factor under which demand is raised by floor over actual.',
      need: 'assumed',
      absent: 'none',
    }).optional(),
    diesel: money('L', {
      said: 'Diesel, delivered.',
      need: 'must',
      absent: 'the cost of a generator’s fuel is unknown',
    }).optional(),
    note: text({ said: 'Anything else.', need: 'assumed', absent: 'nothing' }).optional(),
  })
  .meta(group('What energy costs.', 'must', 'the bill is unknown'))

export const supply = z
  .strictObject({
    system: system({
      said: 'Voltage system at the panel of the box.',
      need: 'assumed',
      absent: '120/240 V single-phase in us and ca, 230/400 V three-phase in intl',
    }).optional(),
    frequency: quantity('frequency', range(50, 60, '50 Hz or 60 Hz'), {
      said: 'Frequency.',
      need: 'assumed',
      absent: '60 Hz in us and ca, 50 Hz in intl',
    }).optional(),
    offers: z
      .array(offer)
      .meta(group('Every offer of supply, side by side.', 'must', 'supply answers unknown'))
      .optional(),
    'own-transformers': z
      .array(ownTransformer)
      .meta(group('Transformers that may stand in the box.', 'assumed', 'none'))
      .optional(),
    tariff: tariff.optional(),
  })
  .meta(group('What can feed it.', 'must', 'supply answers unknown'))
