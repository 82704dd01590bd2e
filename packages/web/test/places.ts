import { QUESTIONS } from '@plugstead/engine/kernel'
import type { Page } from 'playwright-core'
import type { Route } from '../src/route.ts'

/** A place of the app: its address, what a person does there first, and what is then seen. */
export interface Place {
  readonly name: string
  readonly hash: string
  readonly act?: (page: Page) => Promise<unknown>
  readonly seen: string
}

const JOB = '#/job/groomer-yard-us'
const G4C = `${JOB}?box=yard&thing=receptacle+G4C`
const SHEET = '.box-sheet:not(.stale) [data-choose]'
const press = (name: string) => (page: Page) => page.getByRole('button', { name }).click()

/** Every page of the route, every question: the compiler asks for a page that has no line here, and a question that is built has its room at once. */
const PAGES: Readonly<Record<Route['page'], readonly Place[]>> = {
  today: [
    { name: 'today', hash: '#/today', seen: '.day-sheet' },
    { name: 'hands', hash: '#/today', act: press('Hands and eyes'), seen: 'dialog[open]' },
  ],
  call: [{ name: 'call', hash: '#/call', seen: '#call-where' }],
  'six sides': [
    { name: 'net', hash: JOB, seen: SHEET },
    { name: 'thing', hash: G4C, seen: '.tag' },
    { name: 'tag-all', hash: G4C, act: (page) => page.getByRole('button', { name: /more hold/ }).click(), seen: '.tag' },
    { name: 'side', hash: `${JOB}/box/yard/left?box=yard&thing=panel`, seen: '.side-strip, .tag' },
    { name: 'moving', hash: `${JOB}/box/yard/left?box=yard&thing=controls&act=move`, seen: SHEET },
    { name: 'pinning', hash: `${JOB}?box=yard&thing=panel&act=pin`, seen: '.tag' },
    { name: 'yard', hash: `${JOB}/box/yard/yard`, seen: '.yard-table' },
    { name: 'yard-thing', hash: `${JOB}/box/yard/yard?box=yard&thing=receptacle+G4C`, seen: '.tag' },
    { name: 'working', hash: `${G4C}&working=${encodeURIComponent('G4C/drop')}`, seen: '.leaf .judgement' },
    {
      name: 'find',
      hash: JOB,
      act: async (page) => {
        await page.locator('[data-choose="panel"]').focus()
        await page.keyboard.press('/')
        await page.keyboard.type('G4')
      },
      seen: 'input:focus',
    },
    {
      name: 'keys',
      hash: JOB,
      act: async (page) => {
        await page.locator('[data-choose="panel"]').focus()
        await page.keyboard.press('?')
      },
      seen: 'dialog[open]',
    },
  ],
  room: QUESTIONS.map((id) => ({
    ...{ name: `room-${id}`, hash: `${JOB}/room/${id}` },
    seen: id === 'air' ? '.room:not(.stale) .air-vent' : '.room:not(.stale)',
  })),
  rule: [{ name: 'rule', hash: `${JOB}/rule`, seen: '[data-question], .rule' }],
  compare: [{ name: 'compare', hash: `${JOB}/compare`, seen: '.pair figure svg' }],
  paper: [
    { name: 'paper', hash: `${JOB}/paper`, seen: '.sheets button' },
    {
      name: 'paper-sheet',
      hash: `${JOB}/paper`,
      act: (page) => page.locator('.sheets button', { hasText: 'Workings: volts' }).click(),
      seen: '.leaf-of-paper',
    },
  ],
}

export const PLACES: readonly Place[] = Object.values(PAGES).flat()

/** Goes there, does what is to be done, waits until it is seen and stands still. */
export async function goToPlace(page: Page, { hash, act, seen }: Place): Promise<void> {
  await page.evaluate((to) => {
    for (const open of document.querySelectorAll('dialog[open]')) (open as HTMLDialogElement).close()
    window.location.hash = to
  }, hash)
  await page.waitForFunction(() => !/Reading the (job|working)\./.test(document.querySelector('#page')?.textContent ?? ''))
  await act?.(page)
  await page.locator(seen).first().waitFor({ state: 'attached', timeout: 60_000 })
  await page.evaluate(() => Promise.all(document.getAnimations().map((one) => one.finished)))
}
