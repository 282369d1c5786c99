package store

import (
	"fmt"
	"math/bits"

	"github.com/klauspost/compress/zstd"
)

const (
	// anchorEvery is how many revisions are packed against one anchor, itself
	// included.
	anchorEvery = 32
	// maxDocument is the largest document kept [bytes].
	maxDocument = 16 << 20
)

// pack compresses a document with zstd. With an anchor (the document of an
// earlier revision) that one serves as a dictionary, so that little more than the
// difference is kept; its number goes into the frame. Without, anchor is nil.
func pack(document, anchor []byte, number int) ([]byte, error) {
	// The window must reach over the whole dictionary.
	window := min(max(1<<bits.Len(uint(len(document)+len(anchor))), zstd.MinWindowSize), 2*maxDocument)
	options := []zstd.EOption{
		zstd.WithEncoderConcurrency(1), zstd.WithEncoderCRC(true), zstd.WithZeroFrames(true),
		zstd.WithEncoderLevel(zstd.SpeedFastest), zstd.WithWindowSize(window),
	}
	if anchor != nil {
		options = append(options, zstd.WithEncoderDictRaw(uint32(number), anchor))
	}
	e, err := zstd.NewWriter(nil, options...)
	if err != nil {
		return nil, err
	}
	defer e.Close()
	return e.EncodeAll(document, nil), nil
}

// unpacker undoes pack for revisions of one anchor.
type unpacker struct {
	d *zstd.Decoder
}

// newUnpacker makes an unpacker for documents packed against an anchor, or alone
// when that is nil.
func newUnpacker(anchor []byte, number int) (*unpacker, error) {
	options := []zstd.DOption{
		zstd.WithDecoderConcurrency(1), zstd.WithDecoderMaxMemory(maxDocument),
		zstd.WithDecodeAllCapLimit(true), zstd.WithDecoderMaxWindow(4 * maxDocument),
	}
	if anchor != nil {
		options = append(options, zstd.WithDecoderDictRaw(uint32(number), anchor))
	}
	d, err := zstd.NewReader(nil, options...)
	if err != nil {
		return nil, err
	}
	return &unpacker{d}, nil
}

// unpack gives back a document of a known size [bytes].
func (u *unpacker) unpack(content []byte, size int) ([]byte, error) {
	if size < 0 || size > maxDocument {
		return nil, fmt.Errorf("unpacked size %d", size)
	}
	document, err := u.d.DecodeAll(content, make([]byte, 0, size))
	if err != nil {
		return nil, err
	}
	if len(document) != size {
		return nil, fmt.Errorf("unpacked to %d bytes instead of %d", len(document), size)
	}
	return document, nil
}

// close gives the decoder's memory back.
func (u *unpacker) close() {
	if u != nil {
		u.d.Close()
	}
}
