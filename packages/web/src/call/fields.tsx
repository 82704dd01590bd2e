import type { CallAnswers, CallQuestion } from '@plugstead/engine/job'
import type { Problem } from '@plugstead/engine/kernel'
import type { KeyboardEvent } from 'react'
import { useWords } from '../words/index.ts'

type Id = keyof CallAnswers

export const fieldOf = (id: Id): HTMLElement | null => document.getElementById(`call-${id}`)

interface FieldProps {
  readonly question: CallQuestion
  readonly number: number
  readonly text: string
  readonly problem: Problem | undefined
  readonly type: (text: string) => void
  /** The answer is said: on leaving the field. */
  readonly settle: () => void
  readonly next: () => void
}

/** One question of the call: its default in chalk, told once something is typed, a problem under it while the text stays. */
export function Field({ question, number, text, problem, type, settle, next }: FieldProps) {
  const words = useWords()
  const { id, asks, example } = question
  const told = text.trim() !== ''
  const firm = told ? 'told' : question.default === null ? 'wanted' : 'assumed'
  const list = id === 'machines'
  const notes = [problem === undefined ? null : `call-${id}-problem`, list ? `call-${id}-lines` : null, `call-${id}-firm`]
  const field = {
    id: `call-${id}`,
    value: text,
    placeholder: question.default ?? example.replaceAll('; ', '\n'),
    autoComplete: 'off',
    spellCheck: false,
    'aria-describedby': notes.filter((one) => one !== null).join(' '),
    'aria-invalid': problem !== undefined,
    'aria-required': question.default === null,
    onBlur: settle,
  }
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement | HTMLTextAreaElement>) => {
    if (event.key !== 'Enter' || event.nativeEvent.isComposing) return
    if (list && !event.ctrlKey && !endsEmpty(event.currentTarget)) {
      // A line is said: plan it, and go on typing.
      settle()
      return
    }
    event.preventDefault()
    next()
  }
  return (
    <li className={`ask is-${firm}${problem === undefined ? '' : ' wrong'}`}>
      <label htmlFor={field.id}>{words.call.number(number, asks)}</label>
      <span className="firm" id={`call-${id}-firm`}>
        {words.call[firm]}
      </span>
      {list ? (
        <>
          <textarea
            {...field}
            rows={Math.max(3, text.split('\n').length + 1)}
            onChange={(event) => type(event.target.value)}
            onKeyDown={onKeyDown}
          />
          <small id={`call-${id}-lines`}>{words.call.lines}</small>
        </>
      ) : (
        <input {...field} type="text" onChange={(event) => type(event.target.value)} onKeyDown={onKeyDown} />
      )}
      {problem === undefined ? null : (
        <p className="mend" id={`call-${id}-problem`} role="alert">
          <b>{words.states.found}</b> {problem.found}. <b>{words.states.wanted}</b> {problem.wanted}. {problem.mend}
        </p>
      )}
    </li>
  )
}

/** The cursor stands on an empty last line. */
function endsEmpty(field: HTMLInputElement | HTMLTextAreaElement): boolean {
  const { value, selectionStart } = field
  return selectionStart === value.length && (value === '' || value.endsWith('\n'))
}
