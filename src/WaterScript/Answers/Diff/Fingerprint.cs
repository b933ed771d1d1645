using System.Buffers.Binary;
using System.Security.Cryptography;

namespace WaterScript.Answers.Diff;

/// <summary>Says of rows of waterings of any length whether they are the same, by a hash over hashes (SHA-256).</summary>
internal sealed class Fingerprint
{
    private const int RowLength = 20;
    private const int RowsAtOnce = 200;

    private readonly byte[] _block = new byte[SHA256.HashSizeInBytes + (RowLength * RowsAtOnce)];
    private int _rows;

    /// <summary>The fingerprint of all that was taken in.</summary>
    public string Text
    {
        get
        {
            Close();
            return Convert.ToHexString(_block.AsSpan(0, SHA256.HashSizeInBytes));
        }
    }

    /// <summary>Takes in a watering.</summary>
    public void Add(long from, long to, int zone)
    {
        if (_rows == RowsAtOnce) Close();
        var row = _block.AsSpan(SHA256.HashSizeInBytes + (RowLength * _rows++));
        BinaryPrimitives.WriteInt64LittleEndian(row, from);
        BinaryPrimitives.WriteInt64LittleEndian(row[sizeof(long)..], to);
        BinaryPrimitives.WriteInt32LittleEndian(row[(2 * sizeof(long))..], zone);
    }

    /// <summary>The hash so far becomes the beginning of the next block.</summary>
    private void Close()
    {
        var used = _block.AsSpan(0, SHA256.HashSizeInBytes + (RowLength * _rows));
        SHA256.HashData(used).CopyTo(_block, 0);
        _rows = 0;
    }
}
