import { describe, expect, it } from 'vitest'
import { everySite, knowsSite, mayAt } from '#domain/access/membership.ts'
import { type Action, actions, type Role, roleMay, roles } from '#domain/access/permissions.ts'

/** The whole matrix, so that no cell changes unseen: columns as in `actions`, x where it may. */
const matrix: Readonly<Record<Role, string>> = {
  //              approved all audit add change approve-levels approve-readings administer
  viewer: /*       */ 'x-------',
  field: /*        */ 'xx-x----',
  engineer: /*     */ 'xxxxx---',
  approver: /*     */ 'xxxxxxx-',
  administrator: /**/ 'xxxxxxxx',
}
const cells = roles.flatMap((role) =>
  actions.map((action, i): [Role, Action, boolean] => [role, action, matrix[role][i] === 'x']),
)

describe('what a role may do', () => {
  it.each(cells)('%s, %s: %s', (role, action, expected) => {
    expect(roleMay(role, action)).toBe(expected)
  })

  it('counts at its own site only', () => {
    const engineer = [{ site: 'north-quay', role: 'engineer' as const }]
    expect(mayAt(engineer, 'north-quay', 'change-records')).toBe(true)
    expect(mayAt(engineer, 'south-quay', 'read-approved')).toBe(false)
    expect(mayAt(engineer, everySite, 'read-approved')).toBe(false)
    expect(knowsSite(engineer, 'south-quay')).toBe(false)
  })

  it('counts everywhere where it was given for every site, beside what one site adds', () => {
    const both = [
      { site: everySite, role: 'viewer' as const },
      { site: 'north-quay', role: 'field' as const },
    ]
    expect(mayAt(both, 'south-quay', 'read-approved')).toBe(true)
    expect(mayAt(both, 'south-quay', 'add')).toBe(false)
    expect(mayAt(both, 'north-quay', 'add')).toBe(true)
    expect(knowsSite(both, 'one that is yet to come')).toBe(true)
    expect(mayAt([], 'north-quay', 'read-approved')).toBe(false)
  })
})
