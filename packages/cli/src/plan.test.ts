import { spawnSync } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Answer } from '@plugstead/engine/answer'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { charCount } from './print/wrap.ts'
import { PROGRAM, plugstead, ROOT, started } from './spawned.ts'

const JOB = 'examples/two-machines.yaml'
const YARD = 'examples/groomer-yard-us.yaml'
const BUILT = ['needs', 'supply', 'circuits', 'reach', 'faults', 'fit', 'skin', 'haul', 'shop', 'dates', 'money']
const NOT_BUILT = ['place', 'papers', 'energise', 'keep']

let folder = ''
/** The example planned once; most of what follows looks at it. */
let planned: ReturnType<typeof answerOf>
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'plugstead-plan-'))
  planned = answerOf(['plan', JOB, '--out', folder])
}, 240_000)
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const answerOf = (words: readonly string[]) => {
  const { code, out, err } = plugstead([...words, '--json'])
  return { code, err, answer: JSON.parse(out) as Answer & { readonly result: { readonly chosen: { readonly id: string } } } }
}

/** What the exit code has to be for these questions. */
function codeFor(answer: Answer): number {
  const verdicts = answer.questions.map((question) => question.verdict)
  return verdicts.includes('fails') ? 1 : verdicts.includes('unknown') ? 3 : 0
}

const narrow = (text: string) => {
  for (const line of text.split('\n').filter((one) => !one.includes(folder)))
    expect(charCount(line), line).toBeLessThanOrEqual(80)
}

describe('plan and assess', () => {
  for (const command of ['plan', 'assess'])
    test(`${command} answers sixteen questions, five of them not built, and ends with the code they ask for`, () => {
      const { code, answer, err } = command === 'plan' ? planned : answerOf([command, JOB])
      expect(answer.problems).toEqual([])
      expect(answer.questions).toHaveLength(16)
      expect(answer.questions.filter((question) => question.verdict === 'not built').map((question) => question.id)).toEqual(
        NOT_BUILT,
      )
      expect(code).toBe(codeFor(answer))
      expect(err).not.toMatch(/Error|at /)
      for (const question of answer.questions)
        for (const found of question.findings)
          expect(answer.findings.some((finding) => finding.code === found && finding.question === question.id)).toBe(true)
    })

  test('what is printed keeps within 80 columns, without colour, and names every question', () => {
    const { out } = plugstead(['plan', YARD])
    narrow(out)
    expect(out).not.toContain('\u001b')
    expect(out).not.toContain('\u202f')
    for (const id of [...NOT_BUILT, ...BUILT]) expect(out).toMatch(new RegExp(`^${id} `, 'm'))
    expect(out).toContain('A design aid.')
  })

  test('the same job gives the same answer, to the byte', () => {
    expect(JSON.stringify(answerOf(['plan', JOB, '--out', folder]).answer)).toBe(JSON.stringify(planned.answer))
  })

  test('a design written by plan is judged by assess as plan judged it', () => {
    const design = join(folder, 'two-machines.design.json')
    const { answer: assessed } = answerOf(['assess', JOB, '--design', design])
    expect(assessed.questions).toEqual(planned.answer.questions)
    expect(assessed.findings).toEqual(planned.answer.findings)
    expect(readdirSync(folder).filter((name) => name.startsWith('.'))).toEqual([])
    for (const kind of ['panel', 'circuits', 'cords', 'openings', 'strut', 'raceways', 'wires', 'cuts', 'bill', 'hours'])
      expect(readFileSync(join(folder, `two-machines.${kind}.csv`), 'utf8')).toMatch(/\r\n$/)
  })

  test('a design that was edited out of shape is refused with every place', () => {
    const text = readFileSync(join(folder, 'two-machines.design.json'), 'utf8')
    const { design } = JSON.parse(text)
    const box = design.boxes[0]
    delete box.panel.busA
    box.earthing = 'sand'
    box.colour = 'grey'
    box.circuits[0].device.ratingA = '20 A'
    const path = join(folder, 'bad.design.json')
    writeFileSync(path, JSON.stringify({ design }))
    const { code, answer } = answerOf(['assess', JOB, '--design', path])
    expect(code).toBe(2)
    expect(answer.problems.map((problem) => problem.path).sort()).toEqual([
      ...[
        'design.boxes[0].circuits[0].device.ratingA',
        'design.boxes[0].colour',
        'design.boxes[0].earthing',
        'design.boxes[0].panel.busA',
      ],
    ])
  })

  test('a design file from before air was designed keeps its vents as they are cut, and says so', () => {
    const { design } = JSON.parse(readFileSync(join(folder, 'two-machines.design.json'), 'utf8'))
    const { air, ...older } = design.builds[0]
    expect(air.vents.map((v: { id: string; widthMm: number }) => [v.id, v.widthMm])).toEqual([
      ['vent low', 300],
      ['fan', 300],
    ])
    older.skin.openings = older.skin.openings.filter((o: { id: string }) => o.id !== 'vent low')
    const path = join(folder, 'older.design.json')
    writeFileSync(path, JSON.stringify({ design: { ...design, builds: [older] } }))
    const { answer } = answerOf(['assess', JOB, '--design', path])
    expect(answer.problems).toEqual([])
    expect(answer.assumed.filter((a) => a.path === 'choices.air.yard').map((a) => a.said)).toEqual([
      expect.stringContaining('the design file says nothing of air; its vents are taken as they are cut'),
    ])
    const [read] = (answer.result as unknown as { design: { builds: { air: { vents: { id: string; upMm: number }[] } }[] } })
      .design.builds
    expect(read!.air.vents.map((v) => v.id)).toEqual(['fan'])
    expect(read!.air.vents[0]!.upMm).toBeCloseTo(air.vents[1].upMm, 9)
  })

  test('sizes and devices that the rule set does not list, and a circuit written twice, are refused', () => {
    const { design } = JSON.parse(readFileSync(join(folder, 'two-machines.design.json'), 'utf8'))
    const [box] = design.boxes
    box.circuits[0].run.line.size = '18 AWG'
    box.circuits[0].cords[0].size = '1 rope'
    box.circuits[1].device.family = 'string and wax'
    box.circuits[1].legs = box.circuits[1].legs.slice(0, 1)
    box.circuits[2].id = box.circuits[1].id
    const path = join(folder, 'unheard.design.json')
    writeFileSync(path, JSON.stringify({ design }))
    const { code, answer } = answerOf(['assess', JOB, '--design', path])
    expect(code).toBe(2)
    expect(answer.problems.map((problem) => problem.path).sort()).toEqual([
      'design.boxes[0].circuits[0].cords[0].size',
      'design.boxes[0].circuits[0].run.line.size',
      'design.boxes[0].circuits[1].device.family',
      'design.boxes[0].circuits[2].id',
    ])
  })
  test('a design of another job is refused: its plugs are strangers here', () => {
    const { code, answer } = answerOf(['assess', YARD, '--design', join(folder, 'two-machines.design.json')])
    expect(code).toBe(2)
    expect(answer.problems.every((problem) => problem.code.startsWith('design/'))).toBe(true)
  })
})

describe('working', () => {
  test('a derivation is printed in blocks that fit 80 columns: expression, values, result, what it rests on', () => {
    const { answer } = planned
    const id = answer.findings.flatMap((finding) => finding.workings)[0] ?? ''
    const { out, code } = plugstead(['working', JOB, id])
    expect(code).toBe(codeFor(answer))
    narrow(out)
    expect(out).toContain(`[${id}]`)
    expect(out).toMatch(/ = /)
    expect(out).toMatch(/rests on/)
  })

  test('a subject that nothing was worked out for is refused, with what there is', () => {
    const { code, err } = plugstead(['working', JOB, 'H11'])
    expect(code).toBe(2)
    expect(err).toMatch(/Did you mean H1/)
  })
})

describe('a box that stands', () => {
  const MOVED = 'examples/moved-box-airstrip-ca.yaml'

  test('plan shows what must be changed, priced beside a new box, with its cautions, within 80 columns', () => {
    const { out } = plugstead(['plan', MOVED])
    narrow(out)
    expect(out).toMatch(/What must be changed on orchard-box/)
    expect(out).toMatch(/Material at least \d+ USD; the same box built new \d+ USD/)
    expect(out.replace(/\s+/g, ' ')).toMatch(/labour and haul are in neither.*isolate every source, lock, prove dead/)
    expect(out).toMatch(/replace: panel/)
  })

  test('--json has the list, and changes.csv a record for each line; a job without such a box has neither', () => {
    const out = join(folder, 'moved')
    const { answer } = answerOf(['plan', MOVED, '--out', out])
    const { changeList } = answer.result as unknown as { readonly changeList: readonly { readonly lines: readonly object[] }[] }
    expect(changeList).toHaveLength(1)
    const csv = readFileSync(join(out, 'moved-box-airstrip-ca.changes.csv'), 'utf8')
    expect(csv.trimEnd().split('\r\n')).toHaveLength(changeList[0]!.lines.length + 1)
    expect(planned.answer.result).toMatchObject({ changeList: [] })
  })
})

describe('book', () => {
  test('the book and its lists are written, the same bytes twice', () => {
    const [one, two] = ['one', 'two'].map((name) => join(folder, name))
    for (const out of [one, two]) expect([0, 1, 3]).toContain(plugstead(['book', JOB, '--out', out ?? '']).code)
    const names = readdirSync(one ?? '').sort()
    expect(names).toEqual(
      [
        'bill.csv',
        'book.pdf',
        'circuits.csv',
        'cords.csv',
        'cost.csv',
        'cuts.csv',
        'design.json',
        'findings.json',
        'hours.csv',
        'openings.csv',
        'panel.csv',
        'raceways.csv',
        'strut.csv',
        'wires.csv',
      ].map((kind) => `two-machines.${kind}`),
    )
    for (const name of names)
      expect(readFileSync(join(one ?? '', name)).equals(readFileSync(join(two ?? '', name))), name).toBe(true)
    expect(
      readFileSync(join(one ?? '', 'two-machines.book.pdf'))
        .subarray(0, 5)
        .toString(),
    ).toBe('%PDF-')
  })

  test('without a folder it is refused before anything is planned', () => {
    const { code, err } = plugstead(['book', JOB])
    expect(code).toBe(2)
    expect(err).toContain('--out')
  })
})

describe('the machine', () => {
  test('a reader that goes away is no matter', () => {
    const run = spawnSync('sh', ['-c', `"${process.execPath}" "${PROGRAM}" plan ${JOB} | head -1`], {
      cwd: ROOT,
      encoding: 'utf8',
    })
    expect(run.stdout.split('\n')).toHaveLength(2)
    expect(run.stderr).not.toMatch(/EPIPE|Error/)
  })

  test('a folder that cannot be made ends with 4, says what to do, and leaves nothing', () => {
    writeFileSync(join(folder, 'a-file'), 'x')
    const { code, err } = plugstead(['plan', JOB, '--out', join(folder, 'a-file')])
    expect(code).toBe(4)
    expect(err).toMatch(/--out/)
    expect(readFileSync(join(folder, 'a-file'), 'utf8')).toBe('x')
  })

  test('an interrupt ends it as one and leaves no half file', async () => {
    const out = join(folder, 'interrupted')
    const child = started(['book', YARD, '--out', out])
    setTimeout(() => child.kill('SIGINT'), 400)
    const [code, signal] = await once(child, 'exit')
    if (code !== null && [0, 1, 3].includes(code)) return
    expect(signal === 'SIGINT' || code === 130).toBe(true)
    const left = spawnSync('ls', ['-A', out], { encoding: 'utf8' })
      .stdout.split('\n')
      .filter((name) => name !== '')
    expect(left).toEqual([])
  })

  test('a shop without prices, and one that is not there, are refused', () => {
    writeFileSync(join(folder, 'shop.yaml'), 'name: empty\nprices: []\n')
    expect(plugstead(['plan', JOB, '--shop', folder]).err).toMatch(/price table/)
    expect(plugstead(['plan', JOB, '--shop', join(folder, 'nowhere')]).code).toBe(2)
  })
})

describe('--write', () => {
  test('plan keeps its choices in the job as pins; comments and order survive, and the plan stays the same', () => {
    const path = join(folder, 'pinned.yaml')
    const before = readFileSync(join(ROOT, JOB), 'utf8')
    writeFileSync(path, before)
    const first = answerOf(['plan', path, '--write'])
    const after = readFileSync(path, 'utf8')
    expect(after).not.toBe(before)
    for (const line of before.split('\n').filter((text) => text !== '')) expect(after).toContain(line)
    const second = answerOf(['plan', path])
    expect(second.answer.questions).toEqual(planned.answer.questions)
    expect(second.answer.result.chosen).toMatchObject({ id: planned.answer.result.chosen.id })
    expect(first.answer.questions).toEqual(planned.answer.questions)
  })
})
