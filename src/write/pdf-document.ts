import {
  Duplex,
  PDFCatalog,
  PDFContext,
  PDFHexString,
  PDFName,
  PDFPageLeaf,
  PDFPageTree,
  PDFRawStream,
  PDFString,
  PDFWriter,
  PrintScaling,
} from '@cantoo/pdf-lib';

/**
 * Document and pages by the library's own objects (ISO 32000-1, 7.7). Its convenience layer brings fonts, forms, pictures
 * and an HTML reader that a page of lines never needs, and loading those takes longer than drawing.
 */
export interface Document {
  readonly context: PDFContext;
  readonly catalog: PDFCatalog;
}

/** No clock here: the same drawing gives the same bytes on any day. */
const NO_DATE = new Date(0);

/** An empty document that asks the printer for true size, on one side. */
export function emptyDocument(title: string): Document {
  const context = PDFContext.create();
  const pages = context.register(PDFPageTree.withContext(context));
  const catalog = PDFCatalog.withContextAndPages(context, pages);
  context.trailerInfo.Root = context.register(catalog);
  const [ours, day] = [PDFHexString.fromText('lugwright'), PDFString.fromDate(NO_DATE)];
  const info = { Title: PDFHexString.fromText(title), Producer: ours, Creator: ours, CreationDate: day, ModDate: day };
  context.trailerInfo.Info = context.register(context.obj(info));
  const wishes = catalog.getOrCreateViewerPreferences();
  wishes.setPrintScaling(PrintScaling.None);
  wishes.setDuplex(Duplex.Simplex);
  return { context, catalog };
}

/** Puts a page at the end: size in points, content packed by deflate. */
export function addPage({ context, catalog }: Document, width: number, height: number, packed: Uint8Array): void {
  const content = PDFRawStream.of(context.obj({ Filter: 'FlateDecode', Length: packed.length }), packed);
  const leaf = PDFPageLeaf.withContextAndParent(context, catalog.get(PDFName.of('Pages')) as never);
  leaf.set(PDFName.of('MediaBox'), context.obj([0, 0, width, height]));
  leaf.set(PDFName.of('Contents'), context.register(content));
  const at = catalog.Pages().Count().asNumber();
  leaf.setParent(catalog.insertLeafNode(context.register(leaf), at));
}

export const documentBytes = ({ context }: Document): Promise<Uint8Array> =>
  PDFWriter.forContext(context, Number.POSITIVE_INFINITY).serializeToBuffer();
