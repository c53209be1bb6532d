import { FieldsField } from './FieldsField.tsx'
import type { FieldProps } from './field.ts'
import { NamedField, SeveralNamedField, SomeoneField } from './named-fields.tsx'
import { CodeField, CodeTextField, TimeField, WordsField } from './plain-fields.tsx'
import { QuantityField } from './QuantityField.tsx'
import { RowsField } from './RowsField.tsx'
import { TaggedField } from './TaggedField.tsx'

/** The field for one shape. A field's shape never changes while it stands. */
export const ShapeField = (props: FieldProps) => {
  const { shape } = props
  switch (shape.is) {
    case 'fixed':
    case 'unasked':
      return null
    case 'given':
      return <ShapeField {...props} shape={shape.of} />
    case 'quantity':
      return <QuantityField {...props} shape={shape} />
    case 'text':
      return <CodeTextField {...props} shape={shape} />
    case 'words':
    case 'spoken':
      return <WordsField {...props} shape={shape} />
    case 'time':
      return <TimeField {...props} shape={shape} />
    case 'code':
      return <CodeField {...props} shape={shape} />
    case 'id':
      return <NamedField {...props} shape={shape} />
    case 'someone':
      return <SomeoneField {...props} shape={shape} />
    case 'rows':
      return shape.of.is === 'id' ? (
        <SeveralNamedField {...props} shape={shape} />
      ) : (
        <RowsField {...props} shape={shape} />
      )
    case 'fields':
      return <FieldsField {...props} shape={shape} />
    case 'tagged':
      return <TaggedField {...props} shape={shape} />
  }
}
