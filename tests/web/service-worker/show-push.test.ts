import { expect, test } from 'vitest'
import { pushBody } from '../../../api/alerts/delivery/push.ts'
import { ownPath, readPush } from '../../../web/service-worker/show-push.ts'
import { raisedMessage } from '../../support/alert-message.ts'

const origin = 'https://works.example'

test('what the server sends is shown as it was sent', () => {
  const exercise = { ...raisedMessage, exercise: true }
  expect(readPush(pushBody(exercise), origin, 0)).toEqual({
    title: 'EXERCISE: Level 2 passed at PZ-04',
    body: `This is an exercise. It says nothing about the ground.\n\n${raisedMessage.text}`,
    path: '/?site=small-quay&alert=a-17',
    tag: 'small-quay/a-17',
    atEpochMs: raisedMessage.atEpochMs,
  })
})

test.each([undefined, '', 'no JSON', 'null', '[]', '{}', '{"title":7}'])(
  'what cannot be read (%s) is told and leads to the page',
  (text) => {
    const { title, body, path, atEpochMs } = readPush(text, origin, 17)
    expect(title).toBe('Something is to be looked at')
    expect(body).toContain('could not be read')
    expect([path, atEpochMs]).toEqual(['/', 17])
  },
)

test.each([
  ['/?site=a#b', '/?site=a#b'],
  ['https://works.example/x', '/x'],
  ['https://elsewhere.example/x', '/'],
  ['//elsewhere.example/x', '/'],
  ['\\\\elsewhere.example', '/'],
  ['javascript:alert(1)', '/'],
  ['', '/'],
])('%s leads to %s', (path, leads) => expect(ownPath(path, origin)).toBe(leads))
