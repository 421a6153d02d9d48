import { useEffect, useRef } from 'preact/hooks';

/** The traveller as it prints, over the page. Its document may run nothing. */
export function TravellerSheet({ html, onClose }: { readonly html: string; readonly onClose: () => void }) {
  const dialog = useRef<HTMLDialogElement>(null);
  const frame = useRef<HTMLIFrameElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  return (
    <dialog class="traveller" ref={dialog} aria-label="Traveller" onClose={onClose}>
      <p class="row">
        <button type="button" class="chief" onClick={() => frame.current?.contentWindow?.print()}>
          Print
        </button>
        <button type="button" onClick={() => dialog.current?.close()}>
          Close
        </button>
      </p>
      <iframe
        ref={frame}
        title="Traveller"
        srcdoc={html}
        // Same origin, so that it can be printed; no scripts.
        sandbox="allow-same-origin allow-modals"
      />
    </dialog>
  );
}
