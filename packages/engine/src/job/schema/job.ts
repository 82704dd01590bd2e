import { z } from 'zod'
import { choice, group, special, text, texts, yesNo } from '../fields.ts'
import { JOB_VERSION, problem, shown } from '../problems.ts'
import { box, phase } from './boxes.ts'
import { built } from './built.ts'
import { climate } from './climate.ts'
import { closedTimes, tasks } from './dates.ts'
import { needs } from './needs.ts'
import { measured, permits } from './records.ts'
import { site } from './site.ts'
import { supply } from './supply.ts'
import { surveys } from './surveys.ts'

const rules = z
  .strictObject({
    set: choice(['us', 'ca', 'intl'], {
      said: 'Rule set: us (NFPA 70), ca (CE Code), intl (IEC 60364).',
      need: 'must',
      absent: 'the document cannot be read',
    }),
    edition: text(
      { said: 'Edition the job was begun under.', need: 'assumed', absent: 'the edition of the rule set; recorded with the job' },
      80,
    ).optional(),
    overlays: texts({
      said: 'Overlays on the set: a country, a local amendment, a utility’s rule book.',
      need: 'assumed',
      absent: 'none',
    }).optional(),
  })
  .meta(group('Rules it is judged by.', 'must', 'the document cannot be read'))

const facts = z
  .strictObject({
    site: site.optional(),
    climate: climate.optional(),
    supply: supply.optional(),
    built: built.optional(),
    surveys: surveys.optional(),
    measured: measured.optional(),
    permits: permits.optional(),
    tasks: tasks.optional(),
    closed: closedTimes.optional(),
  })
  .meta(group('What is so, whether anyone likes it or not.', 'must', 'the questions that need it answer unknown'))

/** `cords.G4C.size`, `yard.service.ratingA`: words, tags and numbers with points between. */
export const PIN_PATH = /^[A-Za-z0-9][A-Za-z0-9-]*(\.[A-Za-z0-9][A-Za-z0-9-]*)*$/

const pin = z
  .strictObject({
    value: special<string | number | boolean>(
      (value) => {
        if (typeof value === 'boolean' || (typeof value === 'string' && value.trim() !== '' && value.length <= 200))
          return { ok: true, value }
        if (typeof value === 'number' && Number.isFinite(value)) return { ok: true, value }
        if (typeof value === 'number') return { ok: false, problems: [problem('job/not-finite', value)] }
        return {
          ok: false,
          problems: [
            problem('job/wrong-kind', value, 'one word, figure, yes or no', `Write the value itself instead of ${shown(value)}.`),
          ],
        }
      },
      {
        type: ['string', 'number', 'boolean'],
        unit: 'as the name of the choice says',
        range: 'one value',
        examples: ['12 AWG', 200],
      },
      { said: 'What was chosen.', need: 'must', absent: 'the line cannot be read' },
    ),
    by: text({ said: 'Who pinned it.', need: 'must', absent: 'the line cannot be read' }, 120),
    why: text({ said: 'Why.', need: 'must', absent: 'the line cannot be read' }, 500),
  })
  .meta(
    group(
      'A decision pinned by a person: kept, or named as the cause when the job becomes impossible.',
      'assumed',
      'left to the program',
    ),
  )

const attachment = z
  .strictObject({
    path: special<string>(
      (value) =>
        typeof value === 'string' && isBelow(value)
          ? { ok: true, value }
          : { ok: false, problems: [problem('job/attachment-path', shown(value))] },
      {
        type: 'string',
        unit: 'none',
        range: 'relative, below the job’s folder, “/” between folders',
        examples: ['photos/panel.jpg'],
      },
      { said: 'Path from the folder of the job document.', need: 'must', absent: 'the line cannot be read' },
    ),
    'sha-256': special<string>(
      (value) =>
        typeof value === 'string' && /^[0-9a-f]{64}$/.test(value)
          ? { ok: true, value }
          : {
              ok: false,
              problems: [
                problem('job/wrong-kind', value, '64 digits 0-9 a-f', 'Write the SHA-256 of the file, in small letters.'),
              ],
            },
      { type: 'string', unit: 'none', range: '64 hexadecimal digits', examples: [], pattern: '^[0-9a-f]{64}$' },
      {
        said: 'SHA-256 of the file, so that another file under its name is noticed.',
        need: 'must',
        absent: 'the line cannot be read',
      },
    ),
    what: text({ said: 'What it shows.', need: 'assumed', absent: 'not said' }, 200).optional(),
  })
  .meta(group('A file that belongs to the job.', 'assumed', 'none', ['keep', 'energise', 'papers']))

function isBelow(path: string): boolean {
  if (path === '' || path.length > 400 || path.startsWith('/') || /^[A-Za-z]:/.test(path) || path.includes('\\')) return false
  return path.split('/').every((part) => part !== '..' && part !== '.' && part !== '')
}

const assumedPath = z
  .strictObject({
    path: text(
      { said: 'Path of the value: “needs.stay”, “needs.machines[0].hours”.', need: 'must', absent: 'the line cannot be read' },
      200,
    ),
    why: text({ said: 'Where the default comes from.', need: 'must', absent: 'the line cannot be read' }, 300),
  })
  .meta(group('One value that nobody told.', 'assumed', 'none'))

export const document = z
  .strictObject({
    plugstead: special<number>(
      (value) =>
        value === JOB_VERSION
          ? { ok: true, value: JOB_VERSION }
          : {
              ok: false,
              problems: [
                problem(
                  'job/wrong-kind',
                  value,
                  `the version of the document, a number from 1 to ${JOB_VERSION}`,
                  'Write “plugstead: 1”.',
                ),
              ],
            },
      { type: 'integer', unit: 'none', range: `1 to ${JOB_VERSION}`, examples: [1] },
      {
        said: 'Version of the document; its presence says that this is a job.',
        need: 'must',
        absent: 'the document cannot be read',
      },
    ),
    title: text({ said: 'Title of the job.', need: 'assumed', absent: 'Untitled job' }, 200).optional(),
    invented: yesNo({ said: 'Everything in it is made up.', need: 'assumed', absent: 'no' }).optional(),
    story: text({ said: 'What it is about, in a few sentences.', need: 'assumed', absent: 'nothing' }).optional(),
    rules,
    needs: needs.optional(),
    facts: facts.optional(),
    boxes: z
      .array(box)
      .meta(group('Boxes that are wanted.', 'assumed', 'one box of 20 ft, standard height'))
      .optional(),
    phases: z
      .array(phase)
      .meta(group('Phases of the stay.', 'assumed', 'one phase, the whole stay'))
      .optional(),
    choices: z
      .record(z.string(), pin)
      .meta(
        group(
          'Decisions pinned by people, each under its path (“cords.G4C.size”).',
          'assumed',
          'everything is left to the program',
        ),
      )
      .optional(),
    assumed: z
      .array(assumedPath)
      .meta(
        group(
          'Values of this document that nobody told: defaults that were written in. Shown wherever an answer rests on them; told values are taken off the list.',
          'assumed',
          'every value in the document was told',
        ),
      )
      .optional(),
    attachments: z
      .array(attachment)
      .meta(group('Files that belong to the job.', 'assumed', 'none', ['keep', 'energise', 'papers']))
      .optional(),
  })
  .meta({
    title: 'Plugstead job document',
    description: 'What somebody wants, what is so, and what a person has already decided.',
  })

export type JobDocument = z.output<typeof document>
