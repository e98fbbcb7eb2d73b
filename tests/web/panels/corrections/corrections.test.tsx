import { createSignal } from 'solid-js'
import { render } from 'solid-js/web'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import type { CorrectionProposals, ListedCorrection } from '#contract/correction-proposals.ts'
import type { OfferedCorrections } from '#domain/corrections/offered-corrections.ts'
import { CorrectionList } from '../../../../web/panels/corrections/CorrectionList.tsx'
import { createCorrections } from '../../../../web/panels/corrections/create-corrections.ts'
import { OfferCorrection } from '../../../../web/panels/corrections/OfferCorrection.tsx'
import { readFromFrozen, readFromPresent } from '../../../../web/state/frozen.ts'
import { showSite } from '../../../../web/state/site-document.ts'
import { presentEpochMs, smallSite } from '../../state/small-site.ts'

const series = 'SP-1/settlement'
const steps = [{ kind: 'zero', parameters: 'value=1' }] as const
const draft = {
  kind: 'calibration',
  series,
  fromEpochMs: presentEpochMs,
  untilEpochMs: null,
  was: [],
  steps,
} as const
const waiting = (change: Partial<ListedCorrection> = {}): ListedCorrection => ({
  number: 1,
  author: 'Ada Marsh',
  account: null,
  reason: 'benchmark moved',
  atEpochMs: presentEpochMs,
  changes: [
    {
      ...draft,
      name: 'zero',
      replaces: 'CC-9/1',
      before: 'CC-9/1 has no step 1.',
      after: 'A new version has step 1, zero: value 1.',
    },
  ],
  evidence: {
    sandbox: '?site=small&tab=what-if',
    effects: [
      {
        series,
        unit: 'mm',
        decimals: 1,
        readings: 40,
        changed: 38,
        lost: 2,
        gained: 0,
        meanChange: -1,
        greatestChange: { atEpochMs: presentEpochMs, before: 22.4, after: 21.4 },
        levels: [
          { id: 'SP-1 one', level: 1, direction: 'above', value: 22, reachedBefore: 1, reachedAfter: 0 },
        ],
      },
    ],
    alsoChanges: ['SL-1/slope'],
  },
  decision: null,
  overlaps: [],
  stale: [],
  ...change,
})

let answer: CorrectionProposals
let sent: { path: string; content: unknown }[]
let asked: string[]
let refused: object | null
let stop = () => {}
beforeEach(() => {
  sent = []
  refused = null
  asked = []
  answer = {
    proposals: [waiting()],
    namesAreProven: false,
    mayDecide: true,
    signedInAs: null,
    account: null,
  }
  showSite(smallSite())
  vi.stubGlobal('fetch', async (path: string, request?: RequestInit) => {
    asked.push(path)
    if (request?.method === 'POST') sent.push({ path, content: JSON.parse(String(request.body)) })
    if (request?.method === 'POST' && refused)
      return new Response(JSON.stringify(refused), {
        status: 400,
        headers: { 'content-type': 'application/problem+json' },
      })
    const body =
      request?.method !== 'POST'
        ? answer
        : { number: 2, evidence: waiting().evidence, overlaps: [1], decision: null }
    return new Response(JSON.stringify(body), { headers: { 'content-type': 'application/json' } })
  })
})
afterEach(() => {
  stop()
  document.body.replaceChildren()
  vi.unstubAllGlobals()
  localStorage.clear()
  readFromPresent()
})

const text = () => document.body.textContent ?? ''
const button = (name: string) =>
  [...document.querySelectorAll('button')].find((one) => one.textContent?.trim() === name)
const fill = (label: string, typed: string) => {
  const found = [...document.querySelectorAll('label')].findLast((one) =>
    one.textContent?.trim().startsWith(label),
  )
  const input = document.getElementById(found?.htmlFor ?? '') as HTMLInputElement
  input.value = typed
  input.dispatchEvent(new InputEvent('input', { bubbles: true }))
}
const showList = (about: string | null = null, approved = () => {}) => {
  stop = render(() => {
    const corrections = createCorrections()
    return <CorrectionList corrections={corrections} about={about} approved={approved} />
  }, document.body)
}

describe('what waits', () => {
  test('says what is recorded, what is proposed, what it does, and leads to the sandbox', async () => {
    showList()
    await vi.waitFor(() => expect(text()).toContain('Corrections that wait for a second person: 1'))
    for (const sentence of [
      'SP-1/settlement, zero or offset, from',
      'CC-9/1 has no step 1.',
      'A new version has step 1, zero: value 1.',
      '38 of 40 readings of SP-1/settlement in that time get another value, on average by −1.00 mm.',
      'from 22.4 mm to 21.4 mm',
      '2 readings lose their value.',
      '(SP-1 one, above 22.0 mm): 1 reading at or past it as recorded, no reading as corrected.',
      'It changes SL-1/slope too',
      'Raw readings stay as they are',
      'names are typed, not proven',
    ])
      expect(text()).toContain(sentence)
    expect(document.querySelector('a')?.getAttribute('href')).toBe('?site=small&tab=what-if')
  })

  test('is decided by another name alone, and withdrawn by its proposer', async () => {
    const approved = vi.fn()
    showList(null, approved)
    await vi.waitFor(() => expect(button('Approve')).toBeDefined())
    fill('Your name', 'ada  marsh')
    expect(button('Approve')?.disabled).toBe(true)
    expect(button('Turn down')?.disabled).toBe(true)
    expect(button('Withdraw')).toBeDefined()
    expect(text()).toContain('Ada Marsh proposed this; a second person decides.')
    fill('Your name', 'Ben Holm')
    expect(button('Withdraw')).toBeUndefined()
    fill('What was checked', 'levelled again')
    button('Approve')?.click()
    await vi.waitFor(() => expect(approved).toHaveBeenCalled())
    expect(sent).toEqual([
      {
        path: '/api/sites/small/correction-proposals/1/approval',
        content: { reason: 'levelled again', author: 'Ben Holm' },
      },
    ])
  })

  test('whose decision was refused keeps what was typed, and says why', async () => {
    showList()
    await vi.waitFor(() => expect(button('Approve')).toBeDefined())
    fill('Your name', 'Ben Holm')
    fill('What was checked', ' ')
    refused = {
      title: 'Correction not taken',
      status: 400,
      detail: '',
      issues: [{ code: 'reason-missing', column: 'reason', message: 'Write the reason.' }],
    }
    button('Turn down')?.click()
    await vi.waitFor(() => expect(asked.filter((path) => path.endsWith('-proposals'))).toHaveLength(2))
    await vi.waitFor(() => expect(text()).toContain('Write the reason.'))
    const name = [...document.querySelectorAll('input')].at(-1)
    expect(name?.value).toBe('Ben Holm')
    expect(document.querySelector('textarea')?.getAttribute('aria-invalid')).toBe('true')
  })

  test('that is refused for what stands beside no field has the reason brought into sight', async () => {
    const seen = vi.fn()
    HTMLElement.prototype.scrollIntoView = seen
    showList()
    await vi.waitFor(() => expect(button('Approve')).toBeDefined())
    fill('Your name', 'Ben Holm')
    fill('What was checked', 'levelled again')
    refused = {
      title: 'Records changed meanwhile',
      status: 409,
      detail: '',
      issues: [{ code: 'readings-reordered', column: 'changes.0', message: 'It would stand elsewhere.' }],
    }
    button('Turn down')?.click()
    await vi.waitFor(() => expect(text()).toContain('It would stand elsewhere.'))
    expect(seen).toHaveBeenCalledWith({ block: 'nearest' })
    Reflect.deleteProperty(HTMLElement.prototype, 'scrollIntoView')
  })

  test('whose records changed since cannot be approved, and says why', async () => {
    answer = {
      ...answer,
      proposals: [waiting({ stale: ['CC-9/2 holds since then.'], overlaps: [3] })],
    }
    showList()
    await vi.waitFor(() => expect(text()).toContain('CC-9/2 holds since then.'))
    expect(text()).toContain('Correction 3 waits too')
    fill('Your name', 'Ben Holm')
    expect(button('Approve')?.disabled).toBe(true)
    expect(button('Turn down')?.disabled).toBe(false)
  })

  test('offers nothing to an engineer who may not decide but the way back of their own', async () => {
    answer = {
      ...answer,
      proposals: [waiting({ account: 'two' })],
      namesAreProven: true,
      mayDecide: false,
      account: 'one',
    }
    showList()
    await vi.waitFor(() =>
      expect(text()).toContain('Somebody who may approve readings, other than Ada Marsh'),
    )
    expect(document.querySelectorAll('button')).toHaveLength(0)
  })

  test('of another series is not shown where one is looked at; decided ones say by whom', async () => {
    const decision = {
      kind: 'rejected',
      by: 'Ben Holm',
      account: null,
      reason: 'not seen',
      atEpochMs: presentEpochMs,
    } as const
    answer = { ...answer, proposals: [waiting({ decision }), waiting({ number: 2 })] }
    showList('PZ-1A/pore-pressure')
    await vi.waitFor(() => expect(asked).toHaveLength(1))
    expect(text()).toBe('')
    stop()
    document.body.replaceChildren()
    showList(series)
    await vi.waitFor(() => expect(text()).toContain('Corrections decided: 1'))
    expect(text()).toContain('Turned down by Ben Holm')
  })

  test('is not asked for while the page reads frozen data', async () => {
    readFromFrozen('a'.repeat(16))
    showList()
    await Promise.resolve()
    expect(asked).toEqual([])
  })
})

describe('offering', () => {
  const show = (offered: OfferedCorrections, faults = 0) => {
    const [shown, setShown] = createSignal(offered)
    stop = render(() => {
      const corrections = createCorrections()
      return (
        <OfferCorrection
          offered={shown()}
          faults={faults}
          corrections={corrections}
          address={() => '?site=small&tab=what-if'}
        />
      )
    }, document.body)
    return setShown
  }

  test('sends the changes, the reason and the address of the sandbox, and says what comes', async () => {
    show({ changes: [draft], hindrances: [] })
    button('Offer for approval')?.click()
    expect(text()).toContain('Raw readings stay as they are')
    expect(text()).toContain('Nothing changes until a second person approves.')
    fill('Why the record is wrong', 'benchmark moved')
    fill('Your name', 'Ada Marsh')
    button('Offer it for approval')?.click()
    await vi.waitFor(() => expect(text()).toContain('Proposal 2 waits for a second person'))
    expect(text()).toContain('Proposal 1 is of the same series and time')
    expect(sent).toEqual([
      {
        path: '/api/sites/small/correction-proposals',
        content: {
          changes: [draft],
          sandbox: '?site=small&tab=what-if',
          reason: 'benchmark moved',
          author: 'Ada Marsh',
        },
      },
    ])
  })

  test('says no more that it waits once it is decided', async () => {
    const decision = {
      kind: 'approved',
      by: 'Ben Holm',
      account: null,
      reason: 'seen',
      atEpochMs: presentEpochMs,
    } as const
    show({ changes: [draft], hindrances: [] })
    button('Offer for approval')?.click()
    fill('Why the record is wrong', 'benchmark moved')
    fill('Your name', 'Ada Marsh')
    answer = { ...answer, proposals: [waiting({ number: 2, decision })] }
    button('Offer it for approval')?.click()
    await vi.waitFor(() => expect(button('Offer for approval')).toBeDefined())
    expect(sent).toHaveLength(1)
    expect(text()).not.toContain('waits for a second person')
  })

  test('has no button where nothing differs or a part can be tried alone', () => {
    const change = show({ changes: [], hindrances: [] })
    expect(text()).toBe('')
    change({ changes: [draft], hindrances: ['A drift can be tried and not offered.'] })
    expect(button('Offer for approval')).toBeUndefined()
    expect(text()).toContain('A drift can be tried and not offered.')
    change({ changes: [draft], hindrances: [] })
    expect(button('Offer for approval')).toBeDefined()
  })

  test('is refused while a change of the sandbox could not be made', () => {
    show({ changes: [draft], hindrances: [] }, 1)
    expect(button('Offer for approval')).toBeUndefined()
    expect(text()).toContain('Some of what is tried could not be done')
  })
})
