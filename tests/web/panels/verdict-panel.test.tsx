import { render } from 'solid-js/web'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { ReadingRemarks } from '../../../web/panels/ReadingRemarks.tsx'
import { VerdictForm } from '../../../web/panels/VerdictForm.tsx'
import { VerdictList } from '../../../web/panels/VerdictList.tsx'
import { showSite, siteDocument } from '../../../web/state/site-document.ts'
import { smallSite, smallStates } from '../state/small-site.ts'

const series = 'PZ-1A/pore-pressure'
const verdict = (id: string, at: number, fromAt: number) => ({
  id,
  series,
  fromAt,
  untilAt: null,
  verdict: 'doubtful' as const,
  reason: `${id} drifts`,
  alternatives: 'Drawdown: none',
  author: 'A. Reed',
  at,
})
let stop = () => {}
let sent: { path: string; content: unknown }[]
let answer: () => Response
const jsonAnswer = (content: unknown) =>
  new Response(JSON.stringify(content), { status: 200, headers: { 'content-type': 'application/json' } })

beforeEach(() => {
  sent = []
  showSite({
    ...smallSite(),
    verdicts: [verdict('V-1', 1, 0), verdict('VE-2', 2, 50)],
    verdictWithdrawals: [],
  })
  vi.stubGlobal('fetch', async (path: string, request: RequestInit) => {
    if (request.method !== 'POST') return jsonAnswer(path.endsWith('/state') ? smallStates() : siteDocument())
    sent.push({ path, content: JSON.parse(String(request.body)) })
    return answer()
  })
})
afterEach(() => {
  stop()
  document.body.replaceChildren()
  vi.unstubAllGlobals()
  localStorage.clear()
})
const submit = (name: string) => {
  const form = document.querySelector(`form[aria-label="${name}"]`) as HTMLFormElement
  form.dispatchEvent(new SubmitEvent('submit', { bubbles: true, cancelable: true }))
}
const fill = (label: string, text: string) => {
  const found = [...document.querySelectorAll('label')].find((one) => one.textContent?.trim() === label)
  const input = document.getElementById(found?.htmlFor ?? '') as HTMLInputElement
  input.value = text
  input.dispatchEvent(new InputEvent('input', { bubbles: true }))
  return input
}

const choose = (label: string, word: string) => {
  const found = [...document.querySelectorAll('label')].find((one) => one.textContent?.trim() === label)
  const select = document.getElementById(found?.htmlFor ?? '') as HTMLSelectElement
  select.value = word
  select.dispatchEvent(new InputEvent('input', { bubbles: true }))
}
const evidence = {
  oddity: 'value' as const,
  fromEpochMs: 0,
  untilEpochMs: 5,
  rulesVersion: 'r',
  lines: [
    {
      cause: 'ground' as const,
      rule: 'start',
      stands: 'for' as const,
      decibans: 6,
      sentence: 'Real.',
      figure: null,
    },
  ],
}

test('the last verdict is listed first with who and why, and withdrawing asks for a reason', async () => {
  answer = () => jsonAnswer({})
  stop = render(() => <VerdictList series={series} />, document.body)
  const rows = [...document.querySelectorAll('tbody tr')].map((row) => row.textContent ?? '')
  expect(rows[0]).toMatch(/doubtful VE-2.*Holds.*VE-2 drifts.*A\. Reed/)
  expect(rows[1]).toContain('Holds in part: a later verdict holds for the rest')
  const button = document.querySelector('[aria-label="Withdraw VE-2"]') as HTMLButtonElement
  button.click()
  fill('Why it is withdrawn', 'The dip agrees')
  fill('Your name', 'B. Other')
  submit('Withdrawal of a verdict')
  await vi.waitFor(() => expect(sent).toHaveLength(1))
  expect(sent[0]).toEqual({
    path: '/api/sites/small/verdicts/withdrawals',
    content: { verdict: 'VE-2', reason: 'The dip agrees', author: 'B. Other' },
  })
  await vi.waitFor(() => expect(document.querySelector('form')).toBeNull())
})

test('the form sends what its fields say, and a refusal stands beside the field that it names', async () => {
  const issues = [{ code: 'reason-missing', column: 'reason', message: 'No reason is given.' }]
  const problem = { type: 'about:blank', title: 'no', status: 400, detail: 'no', issues }
  answer = () =>
    new Response(JSON.stringify(problem), {
      status: 400,
      headers: { 'content-type': 'application/problem+json' },
    })
  const one = siteDocument()?.series.find(({ id }) => id === series)
  if (!one) throw new Error('no series')
  const saved = vi.fn()
  const dragged = { fromEpochMs: Date.UTC(2027, 0, 2), untilEpochMs: Date.UTC(2027, 0, 3) }
  stop = render(
    () => <VerdictForm series={[one]} dragged={dragged} evidence={evidence} saved={saved} leave={() => {}} />,
    document.body,
  )
  const word = [...document.querySelectorAll('.verdict-words label')].find((label) =>
    label.textContent?.includes('rejected'),
  )
  word?.querySelector('input')?.click()
  fill('Also considered', 'None')
  choose('Laid on', 'sensor')
  choose('How sure', 'very likely')
  expect(document.body.textContent).toContain('right in 90 to 99 of 100 such cases')
  for (const effect of ['visit ordered', 'level to be reviewed'])
    [...document.querySelectorAll<HTMLLabelElement>('.verdict-effects label')]
      .find((label) => label.textContent?.includes(effect))
      ?.querySelector('input')
      ?.click()
  expect(document.body.textContent).toContain('The evidence as known at')
  fill('Your name', 'B. Other')
  submit('Verdict on readings')
  await vi.waitFor(() => expect(document.querySelector('[role=alert]')).not.toBeNull())
  expect(sent[0]?.content).toEqual({
    series,
    ...dragged,
    verdict: 'rejected',
    reason: '',
    alternatives: 'None',
    author: 'B. Other',
    cause: 'sensor',
    confidence: 'very likely',
    effects: ['visit ordered', 'level to be reviewed'],
    evidence,
  })
  const field = fill('Reason', '')
  expect(field.getAttribute('aria-invalid')).toBe('true')
  expect(document.getElementById(field.getAttribute('aria-describedby') ?? '')?.textContent).toBe(
    'No reason is given.',
  )
  expect(saved).not.toHaveBeenCalled()
  answer = () => jsonAnswer({})
  submit('Verdict on readings')
  await vi.waitFor(() => expect(saved).toHaveBeenCalledOnce())
  expect(localStorage.getItem('own-name')).toBe('B. Other')
})

test('what is typed on a series outlives its panel, and stands in another; saving or leaving ends it', async () => {
  answer = () => jsonAnswer({})
  const one = siteDocument()?.series.find(({ id }) => id === series)
  if (!one) throw new Error('no series')
  const form = () =>
    render(() => <VerdictForm series={[one]} saved={() => {}} leave={() => {}} />, document.body)
  const field = (label: string) => {
    const found = [...document.querySelectorAll('label')].find((at) =>
      at.textContent?.trim().startsWith(label),
    )
    return document.getElementById(found?.htmlFor ?? '') as HTMLInputElement
  }
  stop = form()
  fill('Also considered', 'Rain since Monday')
  choose('Laid on', 'radio')
  stop()
  document.body.replaceChildren()
  stop = render(() => <ReadingRemarks series={one} />, document.body)
  expect(field('Also considered').value).toBe('Rain since Monday')
  expect(field('Laid on').value).toBe('radio')
  const leave = [...document.querySelectorAll('button')].find((button) => button.textContent === 'Leave it')
  leave?.click()
  await vi.waitFor(() => expect(document.querySelector('form')).toBeNull())
  stop()
  document.body.replaceChildren()
  stop = form()
  expect(field('Also considered').value).toBe('')
})

test('a reason for taking a verdict back outlives the panel too', () => {
  answer = () => jsonAnswer({})
  stop = render(() => <VerdictList series={series} />, document.body)
  ;(document.querySelector('[aria-label="Withdraw VE-2"]') as HTMLButtonElement).click()
  fill('Why it is withdrawn', 'The dip agr')
  stop()
  document.body.replaceChildren()
  stop = render(() => <VerdictList series={series} />, document.body)
  const area = document.querySelector('form[aria-label="Withdrawal of a verdict"] textarea')
  expect((area as HTMLTextAreaElement | null)?.value).toBe('The dip agr')
  const leave = [...document.querySelectorAll('button')].find((button) => button.textContent === 'Leave it')
  leave?.click()
  expect(document.querySelector('form')).toBeNull()
})
