import { randomUUID } from 'node:crypto'
import { expect, test } from 'vitest'
import type { Given } from '../store-suite.ts'

export const viewSuite = (given: Given): void => {
  test('[views] a view gives way to a newer one, by version and then by count, and to nothing older', async () => {
    const { views } = given().stores
    const [company, job] = [randomUUID(), randomUUID()]
    const row = (version: number, count: number) => ({
      job,
      name: 'job',
      version,
      count,
      body: `{"n":"${version}/${count} \\u0000"}`,
    })
    const put = async (version: number, count: number) => {
      await views.putView(company, row(version, count))
      return views.view(company, job, 'job')
    }
    expect(await views.view(company, job, 'job')).toBeUndefined()
    expect(await put(1, 5)).toEqual(row(1, 5))
    expect(await put(1, 4)).toEqual(row(1, 5))
    expect(await put(1, 6)).toEqual(row(1, 6))
    expect(await put(2, 1)).toEqual(row(2, 1))
    expect(await put(1, 9)).toEqual(row(2, 1))
    await views.putView(company, { ...row(2, 1), body: 'again' })
    expect((await views.view(company, job, 'job'))?.body).toBe('again')
  })

  test('[views] views belong to a company, a job and a name, and all can be dropped', async () => {
    const { views } = given().stores
    const [company, other, job] = [randomUUID(), randomUUID(), randomUUID()]
    await views.putView(company, { job, name: 'job', version: 1, count: 1, body: 'ours' })
    await views.putView(other, { job, name: 'job', version: 1, count: 1, body: 'theirs' })
    expect((await views.view(company, job, 'job'))?.body).toBe('ours')
    expect((await views.view(other, job, 'job'))?.body).toBe('theirs')
    expect(await views.view(company, job, 'another')).toBeUndefined()
    const second = { job: randomUUID(), name: 'job', version: 1, count: 2, body: 'ours too' }
    await views.putView(company, second)
    await views.putView(company, { ...second, name: 'another' })
    expect((await views.views(company, 'job')).map(({ body }) => body).sort()).toEqual(['ours', 'ours too'])
    expect(await views.views('no uuid', 'job')).toEqual([])
    await views.dropViews()
    expect(await views.view(company, job, 'job')).toBeUndefined()
    expect(await views.view(other, job, 'job')).toBeUndefined()
  })
}
