import { z } from 'zod'
import { choice, group, readBy, text } from '../fields.ts'

const permit = z
  .strictObject({
    what: text({ said: 'What is asked for or given.', need: 'must', absent: 'the line cannot be read' }),
    by: text({ said: 'Office or role that decides.', need: 'must', absent: 'papers answers unknown' }, 200).optional(),
    status: choice(['not asked', 'asked', 'given', 'refused'], {
      said: 'How it stands.',
      need: 'assumed',
      absent: 'not asked',
    }).optional(),
    note: text({ said: 'Anything else.', need: 'assumed', absent: 'nothing' }).optional(),
  })
  .meta(group('One permit or consent.', 'must', 'papers answers unknown', readBy('papers', 'dates')))

export const permits = z
  .array(permit)
  .meta(group('Permits and consents, as they stand.', 'must', 'papers answers unknown', readBy('papers', 'dates')))

const measuredValue = z
  .strictObject({
    what: text(
      {
        said: 'What was measured: loop impedance, insulation, electrode, mass, rib pitch.',
        need: 'must',
        absent: 'the line cannot be read',
      },
      200,
    ),
    where: text(
      { said: 'At which box, circuit, plug or place.', need: 'must', absent: 'the reading serves nothing' },
      200,
    ).optional(),
    value: text({ said: 'The reading with its unit.', need: 'must', absent: 'the line cannot be read' }, 80),
    by: text({ said: 'Who measured, with what.', need: 'must', absent: 'the reading is shown, not used' }, 200).optional(),
    on: text({ said: 'Day of the reading.', need: 'must', absent: 'the reading is shown, not used' }, 40).optional(),
  })
  .meta(group('One reading.', 'assumed', 'none', ['energise', 'keep', 'haul', 'fit']))

export const measured = z
  .array(measuredValue)
  .meta(group('Readings taken at the site or on the box.', 'assumed', 'none', ['energise', 'keep', 'haul', 'fit']))
