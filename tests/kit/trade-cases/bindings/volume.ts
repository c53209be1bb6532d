import { exactly, type Length } from '../../../../api/domain/trade/measure.ts'
import * as volume from '../../../../api/domain/trade/volume.ts'
import { type Binding, given, type Reader } from '../bind.ts'

const thickness = (a: Reader) => a.either(['thickness', 'slab', 'depth'], 'length')
const length = (a: Reader, name: string) => a.of(name, 'length')
const byVolume = (v: unknown) => ({ '': v, volume: v, net: v, net_volume: v })

export const VOLUME: readonly Binding[] = [
  {
    function: 'volume.slab',
    needs: ['length', 'width', 'thickness'],
    gives: (a) =>
      given(
        volume.slab({ length: length(a, 'length'), width: length(a, 'width'), thickness: thickness(a) }),
        byVolume,
      ),
  },
  {
    function: 'volume.slab',
    needs: ['length', 'width', 'depth'],
    gives: (a) =>
      given(
        volume.slab({ length: length(a, 'length'), width: length(a, 'width'), thickness: thickness(a) }),
        (v) => ({
          ...byVolume(v),
          // A table of footings is told by the running foot.
          ...(isOneFoot(length(a, 'length')) ? { yd3_per_ft: Number(v.n) / Number(v.d) } : {}),
        }),
      ),
  },
  {
    function: 'volume.slab',
    needs: ['length', 'height', 'thickness'],
    gives: (a) =>
      given(
        volume.slab({ length: length(a, 'length'), width: length(a, 'height'), thickness: thickness(a) }),
        byVolume,
      ),
  },
  {
    function: 'volume.slabOfArea',
    needs: ['area', 'thickness'],
    gives: (a) => given(volume.slabOfArea({ area: a.of('area', 'area'), thickness: thickness(a) }), byVolume),
  },
  {
    function: 'volume.coverage',
    needs: ['thickness'],
    gives: (a) =>
      given(volume.coverage({ thickness: thickness(a) }), (v) => ({
        '': v,
        ft2_per_yd3: Number(v.n) / Number(v.d),
      })),
  },
  {
    function: 'volume.cylinder',
    needs: ['diameter'],
    may: ['thickness', 'height', 'length', 'depth'],
    when: (a) => ['thickness', 'height', 'length', 'depth'].filter((name) => a.has(name)).length === 1,
    gives: (a) => {
      const height = a.either(['thickness', 'height', 'length', 'depth'], 'length')
      return given(volume.cylinder({ diameter: length(a, 'diameter'), height }), (v) => ({
        ...byVolume(v),
        ...(isOneFoot(height) ? { yd3_per_ft: Number(v.n) / Number(v.d) } : {}),
      }))
    },
  },
  {
    function: 'volume.ring',
    needs: ['outer_diameter', 'inner_diameter', 'thickness'],
    gives: (a) =>
      given(
        volume.ring({
          outerDiameter: length(a, 'outer_diameter'),
          innerDiameter: length(a, 'inner_diameter'),
          thickness: thickness(a),
        }),
        byVolume,
      ),
  },
  {
    function: 'volume.taperedSlab',
    needs: ['length', 'width', 'start_thickness', 'end_thickness'],
    gives: (a) =>
      given(
        volume.taperedSlab({
          length: length(a, 'length'),
          width: length(a, 'width'),
          endWidth: length(a, 'width'),
          thickness: length(a, 'start_thickness'),
          endThickness: length(a, 'end_thickness'),
        }),
        byVolume,
      ),
  },
  {
    function: 'volume.wedge',
    needs: ['wedge_length', 'width', 'thickness'],
    gives: (a) =>
      given(
        volume.wedge({
          length: length(a, 'wedge_length'),
          width: length(a, 'width'),
          thickness: thickness(a),
        }),
        byVolume,
      ),
  },
]

const isOneFoot = (m: Length | undefined): boolean =>
  m?.unit === 'ft' && m.n === exactly('1', 'ft').n && m.d === 1n
