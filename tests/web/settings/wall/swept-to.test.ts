import { expect, it } from 'vitest'
import { sweptTo } from '../../../../web/settings/wall/swept-to.ts'

const from = { x: 500, y: 300, atMs: 1000 }

it('leads on to the left and back to the right', () => {
  expect(sweptTo(from, { x: 380, y: 310, atMs: 1200 })).toBe('on')
  expect(sweptTo(from, { x: 620, y: 290, atMs: 1200 })).toBe('back')
})

it('takes a tap, a slow drag and a sweep across for nothing', () => {
  expect(sweptTo(from, { x: 460, y: 300, atMs: 1200 })).toBeNull()
  expect(sweptTo(from, { x: 100, y: 300, atMs: 3000 })).toBeNull()
  expect(sweptTo(from, { x: 400, y: 420, atMs: 1200 })).toBeNull()
})
