// The window's own file dialog.

import { useApp } from '../../state/react.ts';
import { DialogBox } from '../kit/DialogBox.tsx';
import { PlacePicker } from './PlacePicker.tsx';
import type { PlaceWish } from './places.ts';

export function PlacesDialog({ of }: { readonly of: unknown }) {
  const app = useApp();
  const wish = of as PlaceWish;
  return (
    <DialogBox title={wish.title}>
      <PlacePicker wish={wish} onCancel={() => app.show(null)} />
    </DialogBox>
  );
}
