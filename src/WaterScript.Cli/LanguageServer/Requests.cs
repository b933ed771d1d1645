using System.Collections.Concurrent;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using WaterScript.Diagnostics;

namespace WaterScript.Cli.LanguageServer;

/// <summary>
/// The methods of a server. What changes its state is done in the order in which it comes, before anything behind it; what is only asked is answered beside
/// that, and can be cancelled.
/// </summary>
/// <param name="client">Gets the answers.</param>
internal sealed class Requests(Client client)
{
    private readonly Dictionary<string, Func<Message, Action?>> _methods = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<string, CancellationTokenSource> _pending = new(StringComparer.Ordinal);

    /// <summary>A method that changes the state and has no answer.</summary>
    /// <param name="method">Its name.</param>
    /// <param name="type">What comes with it.</param>
    /// <param name="handle">Does it, in its turn.</param>
    public void Notification<T>(string method, JsonTypeInfo<T> type, Action<T> handle) => _methods[method] = message =>
    {
        handle(Read(message, type));
        return null;
    };

    /// <summary>A method that has an answer.</summary>
    /// <param name="method">Its name.</param>
    /// <param name="type">What comes with it.</param>
    /// <param name="answerType">The answer.</param>
    /// <param name="begin">Takes the state in its turn, and gives what works the answer out beside what comes next.</param>
    public void Request<T, TAnswer>(
        string method, JsonTypeInfo<T> type, JsonTypeInfo<TAnswer> answerType, Func<T, Func<CancellationToken, TAnswer?>> begin)
        where TAnswer : class => _methods[method] = message =>
    {
        var work = begin(Read(message, type));
        var id = message.Id ?? throw new RequestException(ErrorCode.InvalidRequest, $"{method} needs an id");
        var cancel = _pending.GetOrAdd(id, _ => new CancellationTokenSource());
        return () => Run(id, cancel, () => client.Answer(id, work(cancel.Token), answerType));
    };

    /// <summary>Cancels a request, whether it has begun or not.</summary>
    public void Cancel(string id)
    {
        if (_pending.TryGetValue(id, out var pending)) pending.Cancel();
    }

    /// <summary>A request that will come to its turn can be cancelled from now on.</summary>
    public void Expect(Message message)
    {
        if (message is { Id: { } id, Method: { } method } && _methods.ContainsKey(method)) _pending.TryAdd(id, new CancellationTokenSource());
    }

    /// <summary>Does what a message asks for. Nothing that goes wrong ends the server.</summary>
    public void Handle(Message message)
    {
        if (message.Method is not { } method) return;
        if (!_methods.TryGetValue(method, out var handle))
        {
            // What begins with a dollar sign may be left alone.
            if (message.Id is not null) client.Refuse(message.Id, ErrorCode.MethodNotFound, $"there is no method {method}");
            return;
        }

        Guarded(message.Id, () =>
        {
            if (handle(message) is { } work) ThreadPool.QueueUserWorkItem(_ => UnlessGone(work));
            else if (message.Id is { } id) client.Refuse(id, ErrorCode.InvalidRequest, $"{method} has no answer");
        });
    }

    /// <summary>Nobody is there to whom anything could be said; what reads the messages ends with the client.</summary>
    private static void UnlessGone(Action work)
    {
        try
        {
            work();
        }
        catch (ReaderGoneException)
        {
        }
    }

    private void Run(string id, CancellationTokenSource cancel, Action work)
    {
        Guarded(id, () =>
        {
            cancel.Token.ThrowIfCancellationRequested();
            work();
        });
        _pending.TryRemove(id, out _);
    }

    private static T Read<T>(Message message, JsonTypeInfo<T> type)
    {
        if (message.Parameters.ValueKind is not JsonValueKind.Object) throw new RequestException(ErrorCode.InvalidParams, "the parameters are missing");
        try
        {
            return message.Parameters.Deserialize(type) ?? throw new RequestException(ErrorCode.InvalidParams, "the parameters are missing");
        }
        catch (JsonException problem)
        {
            throw new RequestException(ErrorCode.InvalidParams, $"the parameters cannot be read, at {problem.Path}");
        }
    }

    private void Guarded(string? id, Action work)
    {
        var (code, words) = (0, "");
        try
        {
            work();
            return;
        }
        catch (ReaderGoneException)
        {
            throw;
        }
        catch (OperationCanceledException)
        {
            (code, words) = (ErrorCode.Cancelled, "cancelled");
        }
        catch (RequestException problem)
        {
            (code, words) = (problem.Code, problem.Message);
        }
        catch (WorkUsedUpException)
        {
            (code, words) = (ErrorCode.RequestFailed, "this site needs more work than an answer may take");
        }
#pragma warning disable CA1031 // Whatever it was, the editor goes on.
        catch (Exception problem)
#pragma warning restore CA1031
        {
            (code, words) = (ErrorCode.InternalError, $"this is a mistake in {CommandLine.Program} itself, please report it: {problem.GetType().Name}");
        }

        if (id is null) return;
        _pending.TryRemove(id, out _);
        client.Refuse(id, code, words);
    }
}
